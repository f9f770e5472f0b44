//! Small pictures of designs, for lists.

use crate::design::{Design, Piece, Shop, Units};
use crate::drawings::picture::draw_picture;
use crate::drawings::svg::to_svg;
use crate::drawings::{SideScene, Theme};

/// A picture's size, in CSS pixels.
const SIZE: (f64, f64) = (160.0, 72.0);

/// The address of a design's picture; none when it cannot be drawn.
pub fn picture_address(design: &Design, shop: &Shop, theme: &Theme) -> Option<String> {
    let piece = Piece::resolve(design, &design.limits.over(&shop.limits)).ok()?;
    let scene = SideScene::new(design, &piece, Units::from(shop));
    let picture = to_svg(SIZE.0, SIZE.1, |area, sheet| draw_picture(area, &scene, theme, sheet));
    Some(format!("data:image/svg+xml,{}", String::from(js_sys::encode_uri_component(&picture.ok()?))))
}
