//! What heel nails come near to: rows, clinch nails, heads, the heel's edge.

use super::{SAME_PLACE, Walk, Walked, block, in_block, turnout, wall};
use crate::common::insole::{At, apart, nearest};
use crate::common::walked::What;
use hobnail::build::{HeelNailsBuilt, Meets};

/// The demo house's rules, mm.
const ROWS_START: f64 = 12.0;
const TO_ROW: f64 = 3.0;
const TO_EDGE: f64 = 4.0;

impl Walk<'_> {
    pub fn nearest(&mut self, built: &HeelNailsBuilt, all: &[Walked], clinched: &[At]) {
        let passing: Vec<Option<bool>> = all.iter().map(|it| self.passes(built, it)).collect();
        let passes = || all.iter().zip(&passing).filter(|(_, passes)| **passes == Some(true)).map(|(it, _)| it);
        let sure = !passing.contains(&None);
        let both = |it: &Walked, to: &dyn Fn(At) -> f64| to(it.head).min(to(it.point.at));
        let rows = self.rows();
        let to_row = |at: At| rows.iter().map(|row| nearest(row.iter().copied(), at).1).fold(f64::MAX, f64::min);
        let row = passes().map(|it| both(it, &to_row)).reduce(f64::min);
        let to_clinch = |at: At| clinched.iter().map(|nail| apart(*nail, at)).fold(f64::MAX, f64::min);
        let clinch = passes().map(|it| both(it, &to_clinch)).reduce(f64::min);
        let stages = self.boot().stages.len();
        let order = |it: &Walked| it.stage.unwrap_or(stages);
        let mut head: Option<f64> = None;
        for (n, one) in all.iter().enumerate() {
            for other in &all[..n] {
                if order(one) - order(other).min(order(one)) <= 1 {
                    head = Some(head.unwrap_or(f64::MAX).min(apart(one.head, other.head)));
                }
            }
        }
        let to_edge = |it: &Walked| nearest(self.edge.iter().copied(), it.head).1.min(self.insole().breast - it.head.0);
        let edge = all.iter().map(to_edge).reduce(f64::min);
        let tool = |meets: Meets| built.near.iter().find(|near| near.meets == meets).map(|near| near.distance);
        if sure {
            self.nears("row", tool(Meets::Row), row, TO_ROW);
            self.nears("clinch nail", tool(Meets::Clinch), clinch, f64::INFINITY);
        }
        self.nears("head", tool(Meets::Head), head, f64::INFINITY);
        self.nears("edge", tool(Meets::Edge), edge, TO_EDGE);
    }

    /// Distances agree where one of them is under the limit; what is farther away need not be told.
    fn nears(&mut self, what: &str, tool: Option<f64>, walked: Option<f64>, limit: f64) {
        match (tool, walked) {
            (Some(tool), Some(walked)) if tool.min(walked) < limit => {
                self.near(&format!("nearest {what}"), tool, walked, SAME_PLACE);
            }
            (Some(tool), None) => self.says(format!("nearest {what}: {tool}, walked none")),
            (None, Some(walked)) if walked < limit => self.says(format!("nearest {what}: none, walked {walked}")),
            _ => {}
        }
    }

    /// Whether a nail's point may pass the base's face, the base at its thinnest; none where a hair decides.
    fn passes(&self, built: &HeelNailsBuilt, it: &Walked) -> Option<bool> {
        let boot = self.boot();
        #[expect(clippy::single_match_else, reason = "a base's nail or the cap's")]
        let (reach, base) = match it.stage {
            Some(n) => {
                let counts = boot.stages[..=n].iter().fold((0, 0, 0), |sum: (u32, u32, u32), stage| {
                    (sum.0 + if stage.wedges { boot.wedges.0 } else { 0 }, sum.1 + stage.lifts, sum.2 + stage.thin)
                });
                let stage = built.rings[n].stage;
                let nail = built.nails.iter().find(|nail| nail.stage == stage && nail.place == it.place)?;
                let at = |x: f64| self.heel.base(boot, counts, x);
                (nail.reach(), at(it.head.0).min(at(it.point.at.0)) - boot.house.gauge)
            }
            None => {
                let cap = built.cap.as_ref()?;
                let worst =
                    |what: What, it: hobnail::measure::Spread| if in_block(boot, what) < 0.0 { it.hi } else { it.lo };
                (cap.length + cap.sunk, block(boot, worst) - self.heel.drop * it.head.0 / self.heel.length)
            }
        };
        ((reach - base).abs() > 1e-3).then_some(reach > base)
    }

    fn rows(&self) -> Vec<Vec<At>> {
        let (boot, insole) = (self.boot(), self.insole());
        let row = |k: u32| {
            let inset = boot.from_edge + f64::from(k) * boot.rows_apart;
            let line = insole.beside(|x, inside| wall(boot, insole, x) + turnout(boot, insole, x, inside) - inset);
            if boot.all_round {
                return line;
            }
            let [from, to] = [false, true].map(|inside| insole.crossing(&line, insole.breast - ROWS_START, inside));
            insole.cut(&line, from, to)
        };
        (0..boot.rows).map(row).collect()
    }
}
