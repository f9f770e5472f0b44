//! Which file of `src` imports which, read from the text: `use` lines and paths.

#![allow(clippy::unwrap_used, reason = "tests may stop at once")]

mod words;

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use words::words;

/// The path of a module or an item, from the crate on.
type Names = Vec<String>;

/// Where an import is: the file that has it and the file it means, both as paths under `src`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Import {
    /// The file that imports.
    pub from: String,
    /// The file in which the imported item is defined.
    pub to: String,
}

/// What one file says of others.
#[derive(Default)]
struct File {
    path: String,
    /// Names that a `use` brings in, and whether it is `pub use`.
    uses: Vec<(bool, String, Names)>,
    /// Paths written out elsewhere.
    paths: Vec<Names>,
    words: BTreeSet<String>,
}

/// All files of `src` but the programs', by module.
pub struct Sources(BTreeMap<Names, File>);

impl Sources {
    /// Reads every file.
    pub fn read() -> Self {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
        let mut files = BTreeMap::new();
        for path in rust_files(&root) {
            let text = fs::read_to_string(root.join(&path)).unwrap();
            files.insert(module_of(&path), File::read(path, &text));
        }
        Self(files)
    }

    /// Every import of a file by another. A `pub use` that only hands a name on is none.
    pub fn imports(&self) -> BTreeSet<Import> {
        let mut imports = BTreeSet::new();
        for (module, file) in &self.0 {
            let used = file.uses.iter().filter(|(is_public, name, _)| !is_public || file.words.contains(name));
            let named = used.map(|(_, _, path)| path).chain(&file.paths);
            for target in named.filter_map(|path| self.defined_in(module, path)) {
                if target != file.path {
                    imports.insert(Import { from: file.path.clone(), to: target });
                }
            }
        }
        imports
    }

    /// The file that defines what a path in a module means; none for a module as such and for other crates.
    fn defined_in(&self, module: &Names, path: &Names) -> Option<String> {
        let mut whole = self.whole_path(module, path).or_else(|| {
            let (_, _, first) = self.0[module].uses.iter().find(|(_, name, _)| *name == path[0])?;
            let first = self.whole_path(module, first)?;
            Some([&first[..], &path[1..]].concat())
        })?;
        loop {
            let length = (0..=whole.len()).rev().find(|&length| self.0.contains_key(&whole[..length]))?;
            let file = &self.0[&whole[..length]];
            let name = whole.get(length)?;
            match file.uses.iter().find(|(_, used, _)| used == name) {
                Some((_, _, further)) => {
                    let further = self.whole_path(&whole[..length].to_vec(), further)?;
                    whole = [&further[..], &whole[length + 1..]].concat();
                }
                None => return Some(file.path.clone()),
            }
        }
    }

    /// A path seen from a module as one from the crate on; `None` when it does not begin in this crate.
    fn whole_path(&self, module: &Names, path: &Names) -> Option<Names> {
        let ups = path.iter().take_while(|name| *name == "super").count();
        let child = [&module[..], &path[..1]].concat();
        match path[0].as_str() {
            "crate" => Some(path[1..].to_vec()),
            "self" => Some([&module[..], &path[1..]].concat()),
            "super" => Some([&module[..module.len().checked_sub(ups)?], &path[ups..]].concat()),
            _ => self.0.contains_key(&child).then(|| [&module[..], path].concat()),
        }
    }
}

/// Groups of files that import one another, directly or through others; the largest first.
pub fn circles(imports: &BTreeSet<Import>) -> Vec<BTreeSet<String>> {
    let mut next: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for import in imports {
        next.entry(&import.from).or_default().push(&import.to);
    }
    let reached: BTreeMap<&str, BTreeSet<&str>> = next.keys().map(|&from| (from, reached_from(from, &next))).collect();
    let circle = |from: &str| {
        let back = reached[from].iter().filter(|&&to| reached.get(to).is_some_and(|further| further.contains(from)));
        back.map(|&to| to.to_owned()).collect::<BTreeSet<_>>()
    };
    let circles: BTreeSet<_> = next.keys().map(|from| circle(from)).filter(|circle| !circle.is_empty()).collect();
    let mut circles: Vec<_> = circles.into_iter().collect();
    circles.sort_by_key(|circle| std::cmp::Reverse(circle.len()));
    circles
}

fn reached_from<'a>(from: &'a str, next: &BTreeMap<&'a str, Vec<&'a str>>) -> BTreeSet<&'a str> {
    let mut reached = BTreeSet::new();
    let mut waiting = vec![from];
    while let Some(at) = waiting.pop() {
        waiting.extend(next.get(at).into_iter().flatten().filter(|&&to| reached.insert(to)));
    }
    reached
}

/// Every Rust file below a folder but those of programs, as paths from there with `/`.
pub fn rust_files(root: &Path) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut waiting = vec![root.to_path_buf()];
    while let Some(folder) = waiting.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
            match path.is_dir() {
                true if name != "bin" => waiting.push(path),
                false if name.ends_with(".rs") && name != "main.rs" => drop(found.insert(name)),
                _ => {}
            }
        }
    }
    found
}

fn module_of(path: &str) -> Names {
    let mut names: Names = path.trim_end_matches(".rs").split('/').map(str::to_owned).collect();
    if matches!(names.last().map(String::as_str), Some("mod" | "lib")) {
        names.pop();
    }
    names
}

impl File {
    fn read(path: String, text: &str) -> Self {
        let mut file = Self { path, ..Self::default() };
        let words = words(text);
        let mut at = 0;
        while at < words.len() {
            let is_path = words.get(at + 1).is_some_and(|next| next == "::") && (at == 0 || words[at - 1] != "::");
            let end =
                |mark: &str| at + words[at..].iter().position(|word| word == mark).unwrap_or(words.len() - 1 - at);
            match words[at].as_str() {
                "use" => {
                    let before = at.checked_sub(1).map_or("", |before| words[before].as_str());
                    let end = end(";");
                    file.take_tree(matches!(before, "pub" | ")"), &[], &words[at + 1..end]);
                    at = end;
                }
                "mod" if words.get(at + 2).is_some_and(|after| after == ";") => at += 2,
                _ if is_path => {
                    let far = words[at + 1..].chunks(2).take_while(|pair| pair.len() == 2 && pair[0] == "::").count();
                    let names = words[at..=at + 2 * far].iter().step_by(2).filter(|name| is_name(name)).cloned();
                    file.paths.push(names.collect());
                    file.words.insert(words[at].clone());
                    at += 2 * far;
                }
                word => drop(file.words.insert(word.to_owned())),
            }
            at += 1;
        }
        file
    }

    /// Takes in what a `use` tree names below a path.
    fn take_tree(&mut self, is_public: bool, below: &[String], tree: &[String]) {
        let Some(brace) = tree.iter().position(|word| word == "{") else {
            let names = tree.iter().filter(|word| is_name(word) && *word != "as");
            let mut path = [below, &names.cloned().collect::<Vec<_>>()].concat();
            let name = path.last().cloned().unwrap_or_default();
            if tree.iter().any(|word| word == "as") {
                path.pop();
            }
            if path.len() > 1 && path.last().is_some_and(|last| last == "self") {
                path.pop();
            }
            let name = if name == "self" { path.last().cloned().unwrap_or_default() } else { name };
            if !path.is_empty() {
                self.uses.push((is_public, name, path));
            }
            return;
        };
        let head = tree[..brace].iter().filter(|word| is_name(word)).cloned().collect::<Vec<_>>();
        let below = [below, &head].concat();
        let (mut depth, mut from) = (0, brace + 1);
        for (at, word) in tree.iter().enumerate().skip(brace + 1) {
            match word.as_str() {
                "{" => depth += 1,
                "}" if depth > 0 => depth -= 1,
                "," | "}" if depth == 0 => {
                    self.take_tree(is_public, &below, &tree[from..at]);
                    from = at + 1;
                }
                _ => {}
            }
        }
    }
}

fn is_name(word: &str) -> bool {
    word.starts_with(|first: char| first.is_alphabetic() || first == '_')
}
