//! A scale of colours that is even to the eye: from deep blue (least) to pale straw (most).
//!
//! A straight line in Oklab, where equal distances look equally different (B. Ottosson, "A perceptual color space for
//! image processing", 2020; matrices from memory, checked by their round trip). Lightness rises all the way, and blue
//! against yellow is the one pair of hues that the common kinds of colour blindness leave apart.

use plotters::prelude::{BLACK, RGBColor, WHITE};

use super::theme::contrast;

/// The colour of the least value.
const LEAST: RGBColor = RGBColor(0x12, 0x2B, 0x5C);
/// The colour of the greatest value.
const MOST: RGBColor = RGBColor(0xF6, 0xE7, 0xBC);

/// The colour at a share of the scale, 0 to 1; beyond it the end holds, and what is no number counts as least.
#[must_use]
pub fn colour(share: f64) -> RGBColor {
    let share = if share.is_nan() { 0.0 } else { share.clamp(0.0, 1.0) };
    let (from, to) = (oklab(LEAST), oklab(MOST));
    from_oklab([0, 1, 2].map(|i| from[i] + (to[i] - from[i]) * share))
}

/// Black or white, whichever can be read better on a ground: at least 4.5 to 1.
#[must_use]
pub fn lettering(ground: RGBColor) -> RGBColor {
    if contrast(BLACK, ground) >= contrast(WHITE, ground) { BLACK } else { WHITE }
}

/// Lightness and the two axes of hue.
fn oklab(colour: RGBColor) -> [f64; 3] {
    let [r, g, b] = linear(colour);
    let l = (0.412_221_470_8 * r + 0.536_332_536_3 * g + 0.051_445_992_9 * b).cbrt();
    let m = (0.211_903_498_2 * r + 0.680_699_545_1 * g + 0.107_396_956_6 * b).cbrt();
    let s = (0.088_302_461_9 * r + 0.281_718_837_6 * g + 0.629_978_700_5 * b).cbrt();
    [
        0.210_454_255_3 * l + 0.793_617_785_0 * m - 0.004_072_046_8 * s,
        1.977_998_495_1 * l - 2.428_592_205_0 * m + 0.450_593_709_9 * s,
        0.025_904_037_1 * l + 0.782_771_766_2 * m - 0.808_675_766_0 * s,
    ]
}

fn from_oklab([light, a, b]: [f64; 3]) -> RGBColor {
    let l = (light + 0.396_337_777_4 * a + 0.215_803_757_3 * b).powi(3);
    let m = (light - 0.105_561_345_8 * a - 0.063_854_172_8 * b).powi(3);
    let s = (light - 0.089_484_177_5 * a - 1.291_485_548_0 * b).powi(3);
    let [r, g, b] = [
        4.076_741_662_1 * l - 3.307_711_591_3 * m + 0.230_969_929_2 * s,
        -1.268_438_004_6 * l + 2.609_757_401_1 * m - 0.341_319_396_5 * s,
        -0.004_196_086_3 * l - 0.703_418_614_7 * m + 1.707_614_701_0 * s,
    ]
    .map(to_channel);
    RGBColor(r, g, b)
}

/// Light of each channel, 0 to 1 (IEC 61966-2-1, sRGB).
fn linear(colour: RGBColor) -> [f64; 3] {
    [colour.0, colour.1, colour.2].map(|channel| {
        let c = f64::from(channel) / 255.0;
        if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
    })
}

fn to_channel(light: f64) -> u8 {
    let c = if light <= 0.003_130_8 { light * 12.92 } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 };
    (c * 255.0).round().clamp(0.0, 255.0) as u8
}

#[cfg(test)]
mod tests {
    use super::*;

    fn apart(a: [f64; 3], b: [f64; 3]) -> f64 {
        ((a[0] - b[0]).powi(2) + (a[1] - b[1]).powi(2) + (a[2] - b[2]).powi(2)).sqrt()
    }

    #[test]
    fn colours_come_back_from_oklab() {
        for r in (0..=255).step_by(15) {
            for g in (0..=255).step_by(15) {
                for b in (0..=255).step_by(15) {
                    let colour = RGBColor(r as u8, g as u8, b as u8);
                    assert_eq!(from_oklab(oklab(colour)), colour);
                }
            }
        }
    }

    #[test]
    fn equal_steps_look_equally_different() {
        let steps: Vec<_> = (0..=10).map(|i| oklab(colour(f64::from(i) / 10.0))).collect();
        let mean = apart(steps[0], steps[10]) / 10.0;
        for pair in steps.windows(2) {
            let ratio = apart(pair[0], pair[1]) / mean;
            assert!((0.93..1.07).contains(&ratio), "{ratio}");
        }
    }

    /// WCAG 2.2, 1.4.3: 4.5 for text.
    #[test]
    fn numbers_can_be_read_on_every_colour() {
        for i in 0..=100 {
            let ground = colour(f64::from(i) / 100.0);
            let reached = contrast(lettering(ground), ground);
            assert!(reached >= 4.5, "{i}: {reached}");
        }
    }

    /// Simulation by G. Machado, M. Oliveira, L. Fernandes, "A Physiologically-based Model for Simulation of Color
    /// Vision Deficiency", 2009, severity 1.0 (matrices from memory; every row sums to 1 as it must).
    const SIMULATED: [(&str, [[f64; 3]; 3]); 3] = [
        (
            "protan",
            [
                [0.152_286, 1.052_583, -0.204_868],
                [0.114_503, 0.786_281, 0.099_216],
                [-0.003_882, -0.048_116, 1.051_998],
            ],
        ),
        (
            "deutan",
            [[0.367_322, 0.860_646, -0.227_968], [0.280_085, 0.672_501, 0.047_413], [-0.011_820, 0.042_940, 0.968_881]],
        ),
        (
            "tritan",
            [
                [1.255_528, -0.076_749, -0.178_779],
                [-0.078_411, 0.930_809, 0.147_602],
                [0.004_733, 0.691_367, 0.303_900],
            ],
        ),
    ];

    #[test]
    fn the_scale_stays_even_for_colour_blind_eyes() {
        for (kind, rows) in SIMULATED {
            for row in rows {
                assert!((row.iter().sum::<f64>() - 1.0).abs() < 1e-5);
            }
            let seen = |share: f64| {
                let rgb = linear(colour(share));
                let [r, g, b] = rows.map(|row| to_channel(row[0] * rgb[0] + row[1] * rgb[1] + row[2] * rgb[2]));
                oklab(RGBColor(r, g, b))
            };
            let steps: Vec<_> = (0..=10).map(|i| seen(f64::from(i) / 10.0)).collect();
            for pair in steps.windows(2) {
                assert!(pair[1][0] > pair[0][0], "{kind}: lightness falls");
                assert!(apart(pair[0], pair[1]) > 0.04, "{kind}: a step cannot be seen");
            }
        }
    }
}
