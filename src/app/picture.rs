//! Small pictures of designs, for lists.

use crate::design::{Design, Shop, Units};
use crate::drawings::picture::draw_picture;
use crate::drawings::svg::to_svg;
use crate::drawings::{SideScene, Theme};
use crate::piece::Piece;

/// A picture's size, in CSS pixels.
const SIZE: (f64, f64) = (160.0, 72.0);

/// The work on one picture, in units: a design whose joins take more is drawn without them.
const MOST_WORK: u64 = 12_000_000;

/// The address of a design's picture; none when it cannot be drawn.
pub fn picture_address(design: &Design, shop: &Shop, theme: &Theme) -> Option<String> {
    let (piece, _) = Piece::resolve_within(design, &design.limits.over(&shop.limits), MOST_WORK).ok()?;
    let scene = SideScene::new(design, &piece, Units::from(shop));
    let picture = to_svg(SIZE.0, SIZE.1, |area, sheet| draw_picture(area, &scene, theme, sheet));
    Some(format!("data:image/svg+xml,{}", String::from(js_sys::encode_uri_component(&picture.ok()?))))
}
