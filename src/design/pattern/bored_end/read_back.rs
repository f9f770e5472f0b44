//! The choices of a scoop whose blank, axes and cuts are known: for designs from before patterns were kept.

use super::frame::FLARE_MM;
use super::{BoredEndScoop, Opening, Outside};
use crate::design::axis_name::AxisName;
use crate::design::cut::{
    AxisChoice, BlankSection, Cut, EndPlane, Hollow, HollowShape, Pass, PassProfile, Plug, SawPath, Side,
};
use crate::design::pattern::handle_end::HandleEnd;
use crate::design::pattern::made::Made;
use crate::design::profile::Node;
use crate::design::shop::Chuck;
use crate::geometry::frame::tolerance::SAME_MM;

/// What is read back is rounded to so many parts of a mm: choices are typed in far fewer digits.
const PARTS: f64 = 1e9;

impl BoredEndScoop {
    /// The choices that would make this, if any do: the caller has to look whether they really do.
    ///
    /// A floor that is no thicker than the wall leaves no trace of its own; both ways of reading it are given.
    pub(in crate::design::pattern) fn read_back(made: &Made) -> Vec<Self> {
        let Some(parts) = Parts::of(made) else { return Vec::new() };
        let floors = parts.floors_mm();
        floors.into_iter().filter_map(|floor_mm| parts.choices(floor_mm)).collect()
    }
}

/// The cuts of a scoop.
struct Parts<'a> {
    made: &'a Made,
    tenon: &'a Pass,
    bowl: &'a Pass,
    handle: &'a Pass,
    hook: bool,
    bore: (f64, f64, f64),
    plug: &'a Plug,
    end: &'a EndPlane,
    saw: &'a SawPath,
    side_mm: f64,
}

fn nodes(pass: &Pass) -> Option<&[Node]> {
    match &pass.profile {
        PassProfile::Drawn { nodes } => Some(nodes),
        PassProfile::Join => None,
    }
}

fn rounded(mm: f64) -> f64 {
    (mm * PARTS).round() / PARTS
}

impl<'a> Parts<'a> {
    fn of(made: &'a Made) -> Option<Self> {
        let pass = |name: &str| {
            made.cuts.iter().find_map(|cut| match cut {
                Cut::Pass(pass) if pass.name == name => Some(pass),
                _ => None,
            })
        };
        let bore = made.cuts.iter().find_map(|cut| match cut {
            Cut::Hollow(Hollow {
                axis: AxisName::A,
                shape: HollowShape::RoundEnded { diameter_mm, depth_mm, rounding_mm },
                ..
            }) => Some((*diameter_mm, *depth_mm, *rounding_mm)),
            _ => None,
        });
        let plug = made.cuts.iter().find_map(|cut| if let Cut::FitPlug(plug) = cut { Some(plug) } else { None });
        let end = made.cuts.iter().find_map(|cut| if let Cut::Part(end) = cut { Some(end) } else { None });
        let saw = made.cuts.iter().find_map(|cut| if let Cut::Saw(saw) = cut { Some(&saw.path) } else { None });
        let BlankSection::Square { side_mm } = made.blank.section else { return None };
        Some(Self {
            made,
            tenon: pass("tenon")?,
            bowl: pass("bowl")?,
            handle: pass("handle")?,
            hook: pass("hook").is_some(),
            bore: bore?,
            plug: plug?,
            end: end.filter(|end| end.removes == Side::Head)?,
            saw: saw?,
            side_mm,
        })
    }

    /// Tilt, direction and crossing; a handle on axis A crosses nowhere.
    fn axis(&self) -> Option<(f64, f64, f64)> {
        match self.made.axes.as_slice() {
            [] => Some((0.0, 0.0, BoredEndScoop::default().crossing_mm)),
            [AxisChoice::Tilt { tilt_deg, toward_deg, crossing_mm }] => Some((*tilt_deg, *toward_deg, *crossing_mm)),
            _ => None,
        }
    }

    fn wall_mm(&self) -> Option<f64> {
        match nodes(self.bowl) {
            Some(nodes) => Some(rounded((nodes.first()?.diameter_mm - self.bore.0) / 2.0)),
            None => self.made.thickness.map(|it| it.0),
        }
    }

    /// Where the floor may be read from: the limit, the start of the round-over, or the handle's shoulder.
    fn floors_mm(&self) -> Vec<f64> {
        let (Some(wall_mm), (_, depth_mm, rounding_mm)) = (self.wall_mm(), self.bore) else { return Vec::new() };
        let Some(nodes) = nodes(self.bowl) else { return self.made.thickness.map(|it| it.1).into_iter().collect() };
        let over = nodes.get(1).map(|node| rounded(wall_mm + node.at_mm - (depth_mm - rounding_mm)));
        let probe = self.choices(0.0).map(|scoop| rounded(self.handle.from_mm - scoop.shoulder_without_floor_mm()));
        over.into_iter().chain(probe).collect()
    }

    fn choices(&self, floor_mm: f64) -> Option<BoredEndScoop> {
        let (tilt_deg, toward_deg, crossing_mm) = self.axis()?;
        let (bore_diameter_mm, bore_depth_mm, rounding_mm) = self.bore;
        let along = if self.end.axis == AxisName::A { 1.0 } else { tilt_deg.to_radians().cos() };
        let handle = nodes(self.handle)?;
        let (opening, lip_mm) = match self.saw {
            SawPath::Lines { points } => (Opening::Straight, points.first()?.height_mm),
            SawPath::Arc { from, .. } => (Opening::Arc, from.height_mm),
        };
        Some(BoredEndScoop {
            wanted: None,
            bore_diameter_mm,
            bore_depth_mm,
            rounding_mm,
            wall_mm: self.wall_mm()?,
            floor_mm,
            outside: if nodes(self.bowl).is_some() { Outside::RoundOver } else { Outside::Join },
            tilt_deg,
            toward_deg,
            crossing_mm,
            neck_diameter_mm: rounded(handle.first()?.diameter_mm - FLARE_MM),
            handle_diameter_mm: handle.get(2)?.diameter_mm,
            handle_mm: rounded(self.end.at_mm * along - bore_depth_mm - floor_mm),
            handle_end: if self.hook { HandleEnd::Hooked } else { HandleEnd::Round },
            opening,
            lip_share: rounded(lip_mm / (bore_diameter_mm / 2.0)),
            plug_play_mm: rounded(bore_diameter_mm - self.plug.spigot_diameter_mm),
            blank_side_mm: self.side_mm,
            chuck: self.chuck()?,
        })
    }

    /// A chuck that makes these tenons: the usual one, or as much narrower or wider as they say.
    fn chuck(&self) -> Option<Chuck> {
        let usual = Chuck::default();
        let (tenon_mm, plug_mm) = (nodes(self.tenon)?.first()?.diameter_mm, self.plug.tenon?.diameter_mm);
        let long_mm = self.tenon.to_mm - self.tenon.from_mm;
        // As `Chuck::tenon_mm`, the other way round.
        let jaw_depth_mm = rounded(if long_mm >= 3.0 { long_mm + 1.0 } else { long_mm / 0.75 });
        let (wanted_mm, plug_wanted_mm) = (self.side_mm - 4.0, self.plug_tenon_wanted_mm(jaw_depth_mm)?);
        let at_least = [(tenon_mm, wanted_mm), (plug_mm, plug_wanted_mm)];
        let jaw_from_mm = at_least.into_iter().find(|(is, wanted)| *is > wanted + SAME_MM).map(|it| it.0);
        let jaw_to_mm = match (tenon_mm < wanted_mm - SAME_MM, plug_mm < plug_wanted_mm - SAME_MM) {
            (true, _) => Some(tenon_mm + 2.0),
            (false, true) => Some(plug_mm),
            (false, false) => None,
        };
        Some(Chuck {
            jaw_from_mm: jaw_from_mm.unwrap_or(usual.jaw_from_mm.min(tenon_mm).min(plug_mm)),
            jaw_to_mm: jaw_to_mm.unwrap_or(usual.jaw_to_mm.max(tenon_mm + 2.0).max(plug_mm)),
            jaw_depth_mm,
            ..usual
        })
    }

    /// The diameter of the plug's tenon, in mm, where the jaws do not bound it.
    fn plug_tenon_wanted_mm(&self, jaw_depth_mm: f64) -> Option<f64> {
        let (tilt_deg, toward_deg, crossing_mm) = self.axis()?;
        let chuck = Chuck { jaw_from_mm: 0.0, jaw_to_mm: f64::INFINITY, jaw_depth_mm, ..Chuck::default() };
        let scoop = BoredEndScoop { tilt_deg, toward_deg, crossing_mm, chuck, ..BoredEndScoop::default() };
        Some(scoop.plug().tenon?.diameter_mm)
    }
}
