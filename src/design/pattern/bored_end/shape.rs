//! From the choices to blank, axes and cuts.

use super::frame::{FLARE_MM, SPARE_MM, pass};
use super::{BoredEndScoop, Opening, Outside};
use crate::design::axis_name::AxisName;
use crate::design::cut::{
    AxisChoice, Blank, BlankSection, Cut, EndPlane, Hollow, HollowShape, Pass, PassProfile, Plug, PlugTenon, SawCut,
    SawPath, SawPoint, Side,
};
use crate::design::pattern::arcs::{Bend, rounded};
use crate::design::pattern::handle_end::HandleEnd;
use crate::design::pattern::made::Made;
use crate::design::profile::Node;

/// Waste between the finished end and the tenon, for the parting tool, in mm. Common practice, no source.
const WASTE_MM: f64 = 10.0;
/// Thickness of the plug's disc, in mm. Common practice, no source.
const PLUG_MM: f64 = 10.0;
/// Shoulder of the disc around its tenon, in mm. Common practice, no source.
const PLUG_SHOULDER_MM: f64 = 3.0;
/// Wood of the plug beyond the centre mark, in mm: a live centre's footprint, its margin, and room to tilt a little
/// more. Common practice, no source.
const PLUG_MARGIN_MM: f64 = 12.0;

impl BoredEndScoop {
    /// Blank, axes and cuts.
    ///
    /// Choices inside their bounds make a sound design as long as the handle is long enough for its parts; whether the
    /// piece is strong enough and fits its blank is for the checks to say.
    pub(super) fn make(&self) -> Made {
        let axis =
            AxisChoice::Tilt { tilt_deg: self.tilt_deg, toward_deg: self.toward_deg, crossing_mm: self.crossing_mm };
        Made {
            blank: Blank {
                section: BlankSection::Square { side_mm: self.side_mm() },
                length_mm: self.length_mm() + WASTE_MM + self.tenon_mm(),
            },
            // The join keeps the wall and floor that are wanted; a drawn outside has them drawn.
            thickness: (self.outside == Outside::Join).then_some((self.wall_mm, self.floor_mm)),
            axes: if self.is_tilted() { vec![axis] } else { Vec::new() },
            cuts: self.cuts(),
        }
    }

    /// In the order of the work at the lathe.
    fn cuts(&self) -> Vec<Cut> {
        let mut cuts = vec![Cut::Pass(self.tenon()), Cut::Hollow(self.bore()), Cut::FitPlug(self.plug())];
        cuts.push(Cut::Pass(self.bowl()));
        if self.handle_end == HandleEnd::Hooked {
            // Before the handle: on the same marks as the bowl, and while the neck is still stout.
            cuts.push(Cut::Pass(self.hook()));
        }
        cuts.push(Cut::Pass(self.handle()));
        let end = EndPlane { axis: self.end_axis(), at_mm: self.end_mm(), removes: Side::Head };
        // The plug carries the tail end until the piece is parted.
        cuts.extend([Cut::Part(end), Cut::TakeOutPlug, Cut::Saw(SawCut { path: self.saw_path() })]);
        cuts
    }

    fn tenon(&self) -> Pass {
        let from_mm = self.length_mm() + WASTE_MM;
        let to_mm = from_mm + self.tenon_mm();
        let diameter = self.chuck.tenon_diameter_mm(self.side_mm());
        let nodes = vec![Node::line(from_mm, diameter), Node::line(to_mm, diameter)];
        pass("tenon", AxisName::A, from_mm, to_mm, PassProfile::Drawn { nodes })
    }

    fn bore(&self) -> Hollow {
        Hollow {
            axis: AxisName::A,
            mouth_mm: 0.0,
            shape: HollowShape::RoundEnded {
                diameter_mm: self.bore_diameter_mm,
                depth_mm: self.bore_depth_mm,
                rounding_mm: self.rounding(),
            },
        }
    }

    /// A plug with a tenon wide enough for the handle's mark on its end.
    pub(super) fn plug(&self) -> Plug {
        let length_mm = self.tenon_mm();
        let mark = self.height(-PLUG_MM - length_mm).abs();
        let diameter_mm = (2.0 * (mark + PLUG_MARGIN_MM)).min(self.chuck.jaw_to_mm).max(self.chuck.jaw_from_mm);
        let tenon = PlugTenon { diameter_mm, length_mm };
        Plug {
            disc_diameter_mm: self.outside_diameter().max(tenon.diameter_mm + 2.0 * PLUG_SHOULDER_MM),
            thickness_mm: PLUG_MM,
            spigot_diameter_mm: self.bore_diameter_mm - self.plug_play_mm,
            spigot_length_mm: (self.bore_depth_mm - self.rounding()).min(15.0),
            tenon: Some(tenon),
        }
    }

    /// The outside of the bowl; it runs on past the leaning start of the handle, so that no fin stays.
    fn bowl(&self) -> Pass {
        let handle_from = self.handle_from() * self.tilt().cos();
        let to_mm = if self.is_tilted() { handle_from + self.lean() + 2.0 } else { handle_from };
        let profile = match self.outside {
            Outside::Join => PassProfile::Join,
            Outside::RoundOver => PassProfile::Drawn { nodes: self.round_over(handle_from, to_mm) },
        };
        pass("bowl", AxisName::A, 0.0, to_mm, profile)
    }

    /// Straight over the bore, rounded over toward the neck, and wide enough for all that the handle needs.
    fn round_over(&self, handle_from: f64, to_mm: f64) -> Vec<Node> {
        let outside = self.outside_diameter();
        let neck_start = self.neck_diameter_mm + FLARE_MM;
        let needed = |station: f64| {
            let reach = self.height(station).abs() + neck_start / 2.0;
            (2.0 * (reach + SPARE_MM)).min(outside)
        };
        // The handle's shoulder leans: at the bottom of the bowl it starts later.
        let from = (handle_from + needed(handle_from) / 2.0 * self.tilt().tan()).min(to_mm);
        // The floor asks for more than the wall, and asks it all around the rounding.
        let more = (self.floor_mm - self.wall_mm).max(0.0);
        let start = Node::line((self.bore_depth_mm - self.rounding() + more).max(0.0), outside);
        let end = Node::line(from, needed(from));
        let mut nodes = vec![Node::line(0.0, outside), rounded(start, &end, Bend::Out), end];
        if to_mm > from {
            nodes.push(Node::line(to_mm, needed(to_mm).min(end.diameter_mm)));
        }
        nodes
    }

    /// From the lip up through the top of the bowl, short of the floor.
    fn saw_path(&self) -> SawPath {
        let radius = self.outside_diameter() / 2.0;
        let from = SawPoint { at_mm: -3.0, height_mm: self.lip_share * self.bore_diameter_mm / 2.0 };
        let to = SawPoint { at_mm: self.bore_depth_mm - 2.0, height_mm: radius + 2.0 };
        match self.opening {
            Opening::Straight => SawPath::Lines { points: vec![from, to] },
            Opening::Arc => SawPath::Arc { from, to, bulge_mm: -0.1 * (to.at_mm - from.at_mm) },
        }
    }
}
