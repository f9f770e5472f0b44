//! The command that prints figures, as a script calls it.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "tests may stop at once")]

use std::process::Command;

use serde_json::Value;
use skewline::design::{AxisName, Cut, Node, Plug};
use skewline::shelf::write_design;

mod scoops;
mod support;
use support::pieces::scoop;

struct Answer {
    code: i32,
    json: Value,
}

fn figures(words: &[&str]) -> Answer {
    let output = Command::new(env!("CARGO_BIN_EXE_figures")).args(words).output().expect("the command runs");
    let json = serde_json::from_slice(&output.stdout).expect("the answer is JSON");
    Answer { code: output.status.code().unwrap(), json }
}

fn saved(name: &str, text: &str) -> String {
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

#[test]
fn a_saved_design_gives_figures_checks_and_sections() {
    // With a tenon and a plug, without which nothing carries it to be bored and to be turned on axis B.
    let mut design = scoop();
    let (disc_diameter_mm, spigot_diameter_mm) = (52.0, 40.8);
    let plug = Plug { disc_diameter_mm, thickness_mm: 12.0, spigot_diameter_mm, spigot_length_mm: 12.0, tenon: None };
    design.cuts.insert(1, Cut::FitPlug(plug));
    let end = design.blank.length_mm;
    design.cuts.push(scoops::pass("tenon", AxisName::A, &[Node::line(end - 7.0, 50.0), Node::line(end, 50.0)]));
    let path = saved("scoop.json", &write_design(&design).unwrap());
    let answer = figures(&[&path, "--at-station", "20,150"]);
    assert_eq!(answer.code, 0);
    assert_eq!(answer.json["format"], "skewline-figures");
    assert_eq!(answer.json["figures"]["marks"][1]["axis"], "B");
    assert!(answer.json["checks"].as_array().unwrap().iter().all(|c| c["sentence"].as_str().unwrap().ends_with('.')));
    let steps = answer.json["plan"]["steps"].as_array().unwrap();
    assert_eq!(steps[0]["title"], "Cut and mark the blank");
    assert!(steps.iter().any(|step| step["kind"] == "turn" && step["cut"] == 3));
    // Half way along the bore: the ring between the bowl's outside and a 41 mm bore.
    let ring = answer.json["sections"][0]["area_mm2"].as_f64().unwrap();
    let outside = answer.json["figures"]["joins"][0]["caliper"].as_array().unwrap();
    let turned = outside.iter().find(|c| c["at_mm"] == 20.0).unwrap()["turned_diameter_mm"].as_f64().unwrap();
    let expected = std::f64::consts::PI / 4.0 * (turned * turned - 41.0 * 41.0);
    assert!((ring / expected - 1.0).abs() < 1e-3, "{ring} for {expected}");
}

#[test]
fn slack_is_worked_out_when_asked_for() {
    let path = saved("slack.json", &write_design(&scoop()).unwrap());
    assert!(figures(&[&path]).json.get("slack").is_none());
    let slack = &figures(&[&path, "--slack"]).json["slack"];
    let first = &slack["alone"][0];
    assert_eq!((first["what"].as_str(), first["axis"].as_str()), (Some("tail_x"), Some("B")));
    assert!(slack["together"]["wall_mm"].as_f64().unwrap() < slack["wall_mm"].as_f64().unwrap());
}

#[test]
fn errors_are_json_with_a_code() {
    let missing = figures(&["no-such-file.json"]);
    assert_eq!((missing.code, missing.json["error"]["kind"].as_str()), (1, Some("file")));
    let damaged = figures(&[&saved("damaged.json", "{\"format\": \"skewline-design\", \"vers")]);
    assert_eq!((damaged.code, damaged.json["error"]["kind"].as_str()), (1, Some("file")));
    let mut design: Value = serde_json::from_str(&write_design(&scoop()).unwrap()).unwrap();
    design["design"]["blank"]["length_mm"] = (-4.0).into();
    let wrong = figures(&[&saved("wrong.json", &design.to_string())]);
    assert_eq!((wrong.code, wrong.json["error"]["kind"].as_str()), (1, Some("problems")));
    assert_eq!(wrong.json["error"]["problems"][0]["field"], "blank.length_mm");
    for words in [&[][..], &["a.json", "--at-station", "x"][..], &["a.json", "--nonsense"][..]] {
        let unread = figures(words);
        assert_eq!((unread.code, unread.json["error"]["kind"].as_str()), (2, Some("command")));
    }
}
