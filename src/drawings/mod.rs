//! The drawings: what a draughtsman would put on the sheet, on any plotters backend.
//!
//! Each view is plain data first (a scene, in mm), then one function that draws it. A [`Viewport`] says where the
//! millimetres fall on the sheet, so that dragging and drawing agree.
//!
//! On a canvas of `w` by `h` CSS pixels at device pixel ratio `d`: give the canvas `w d` by `h d` pixels, scale its
//! context by `1 / k` (`k` = 8, say) and use `Sheet::new(w, h, d * k)`: a backend only has whole units, and so lines
//! and places become as fine as an eighth of a device pixel. For SVG there is [`svg::to_svg`].

pub mod bar;
mod beyond;
pub mod clip;
pub mod end_faces;
pub mod frame;
pub mod handles;
pub mod hold_curve;
pub mod jaws;
pub mod line;
pub mod pen;
pub mod picture;
pub mod pointers;
pub mod ramp;
pub mod rule;
pub mod scene;
pub mod section_view;
pub mod side_view;
pub mod slide;
pub mod step_view;
pub mod svg;
pub mod templates;
pub mod text;
pub mod theme;
pub mod wall_map;
pub mod wall_scene;

pub use end_faces::{EndScene, draw_end_faces};
pub use frame::{Bounds, Margins, Point, Sheet, Viewport};
pub use handles::{Handle, HandleId, handles, nearest};
pub use hold_curve::{HoldScene, draw_hold_curve};
pub use pen::{DrawError, Pen};
pub use scene::SideScene;
pub use section_view::{SectionScene, draw_section};
pub use side_view::draw_side_view;
pub use step_view::{StepScene, draw_step};
pub use theme::Theme;
pub use wall_map::draw_wall_map;
pub use wall_scene::WallMapScene;
