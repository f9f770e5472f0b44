//! The colours of a drawing: paper, pencil lines and one warm wood tone, by daylight and in the dark.

use plotters::style::RGBColor;

/// The colours of a drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Theme {
    /// The page.
    pub paper: RGBColor,
    /// Text and outlines.
    pub ink: RGBColor,
    /// Secondary text and dimension lines.
    pub pencil: RGBColor,
    /// Wood that stays.
    pub wood: RGBColor,
    /// Wood that goes: the wood tone at 35 % over the paper.
    pub waste: RGBColor,
    /// Hatching over wood and waste.
    pub hatch: RGBColor,
    /// Axes A, B, C, D; further axes begin again.
    pub axes: [RGBColor; 4],
    /// A value that is as it should be.
    pub good: RGBColor,
    /// A value near its limit.
    pub tight: RGBColor,
    /// A value past its limit.
    pub stop: RGBColor,
    /// What has the focus.
    pub focus: RGBColor,
}

/// A colour from `0xRRGGBB`.
const fn rgb(hex: u32) -> RGBColor {
    RGBColor((hex >> 16 & 0xFF) as u8, (hex >> 8 & 0xFF) as u8, (hex & 0xFF) as u8)
}

impl Theme {
    /// By daylight.
    pub const LIGHT: Self = Self {
        paper: rgb(0x00FA_F6EC),
        ink: rgb(0x0023_201B),
        pencil: rgb(0x006B_6357),
        wood: rgb(0x00E9_D2A8),
        waste: rgb(0x00F4_E9D4),
        hatch: rgb(0x00C2_A06A),
        axes: [rgb(0x0014_497E), rgb(0x00B2_470F), rgb(0x001D_6B4F), rgb(0x006C_3F8F)],
        good: rgb(0x001D_6B4F),
        tight: rgb(0x008A_5A00),
        stop: rgb(0x00A3_231C),
        focus: rgb(0x0014_497E),
    };

    /// On paper from a printer: black and greys on white.
    pub const PRINT: Self = Self {
        paper: rgb(0x00FF_FFFF),
        ink: rgb(0),
        pencil: rgb(0x0033_3333),
        wood: rgb(0x00E4_E4E4),
        waste: rgb(0x00FF_FFFF),
        hatch: rgb(0x0099_9999),
        axes: [rgb(0); 4],
        good: rgb(0),
        tight: rgb(0),
        stop: rgb(0),
        focus: rgb(0),
    };

    /// In the dark.
    pub const DARK: Self = Self {
        paper: rgb(0x0017_1513),
        ink: rgb(0x00F2_ECDF),
        pencil: rgb(0x00A7_9F90),
        wood: rgb(0x006B_4E2A),
        waste: rgb(0x0034_291B),
        hatch: rgb(0x0080_6440),
        axes: [rgb(0x008D_B8E8), rgb(0x00F0_A070), rgb(0x007C_CBA6), rgb(0x00C3_A2E0)],
        good: rgb(0x007C_CBA6),
        tight: rgb(0x00F2_C14E),
        stop: rgb(0x00FF_9C8F),
        focus: rgb(0x008D_B8E8),
    };

    /// The colour of the axis with this place in A, B, C...
    #[must_use]
    pub fn axis(&self, index: usize) -> RGBColor {
        self.axes[index % self.axes.len()]
    }
}

/// Contrast of two colours, 1 to 21. Source: WCAG 2.2, definitions of contrast ratio and relative luminance.
#[must_use]
pub fn contrast(a: RGBColor, b: RGBColor) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Relative luminance, 0 to 1.
fn luminance(colour: RGBColor) -> f64 {
    let linear = |channel: u8| {
        let c = f64::from(channel) / 255.0;
        if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    };
    0.2126 * linear(colour.0) + 0.7152 * linear(colour.1) + 0.0722 * linear(colour.2)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn black_on_white_has_the_greatest_contrast() {
        assert!((contrast(rgb(0), rgb(0x00FF_FFFF)) - 21.0).abs() < 1e-9);
    }

    /// WCAG 2.2: 4.5 for text (1.4.3), 3 for lines that carry meaning (1.4.11).
    #[test]
    fn text_and_lines_stand_out_from_paper_wood_and_waste() {
        for theme in [Theme::LIGHT, Theme::DARK] {
            assert!(contrast(theme.ink, theme.paper) > 15.0);
            assert!(contrast(theme.pencil, theme.paper) > 4.5);
            for ground in [theme.paper, theme.waste] {
                for colour in theme.axes.iter().chain(&[theme.good, theme.tight, theme.stop]) {
                    assert!(contrast(*colour, ground) > 4.5, "{colour:?} on {ground:?}");
                }
            }
            for colour in theme.axes.iter().chain(&[theme.ink, theme.stop, theme.tight]) {
                assert!(contrast(*colour, theme.wood) > 3.0, "{colour:?} on wood");
            }
        }
    }

    #[test]
    fn waste_is_the_wood_tone_at_35_percent() {
        for theme in [Theme::LIGHT, Theme::DARK] {
            let mix = |wood: u8, paper: u8| (0.35 * f64::from(wood) + 0.65 * f64::from(paper)).round() as i32;
            let want = [
                (mix(theme.wood.0, theme.paper.0), theme.waste.0),
                (mix(theme.wood.1, theme.paper.1), theme.waste.1),
                (mix(theme.wood.2, theme.paper.2), theme.waste.2),
            ];
            for (mixed, waste) in want {
                assert!((mixed - i32::from(waste)).abs() <= 1, "{mixed} is not {waste}");
            }
        }
    }
}
