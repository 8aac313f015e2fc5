//! The look of findings on a terminal: little colour, and none of it needed to understand.

use super::Look;
use crate::finding::Severity;
use miette::{GraphicalReportHandler, GraphicalTheme, ThemeCharacters, ThemeStyles};
use owo_colors::Style;

/// How the parts of a finding are painted.
#[derive(Clone, Copy, Debug)]
pub(super) struct Theme {
    look: Look,
}

impl Theme {
    pub fn new(look: Look) -> Self {
        Self { look }
    }

    fn style(self, style: Style) -> Style {
        if self.look.colour { style } else { Style::new() }
    }

    /// The severity's word and the finding's name.
    pub fn head(self, severity: Severity) -> Style {
        let style = Style::new().bold();
        self.style(match severity {
            Severity::Fault | Severity::Refused => style.red(),
            Severity::Tight => style.yellow(),
            Severity::Note => style.blue(),
        })
    }

    /// The word before a note or a help line; headings of tables.
    pub fn word(self) -> Style {
        self.style(Style::new().bold())
    }

    /// What may be overlooked.
    pub fn faint(self) -> Style {
        self.style(Style::new().dimmed())
    }

    /// What draws the places.
    pub fn handler(self) -> GraphicalReportHandler {
        let plain = Style::new();
        let styles = ThemeStyles {
            error: plain,
            warning: plain,
            advice: plain,
            help: plain,
            link: self.word(),
            linum: self.faint(),
            highlights: vec![self.word()],
        };
        let theme = GraphicalTheme { characters: ThemeCharacters::unicode(), styles };
        GraphicalReportHandler::new_themed(theme)
            .with_width(self.look.width)
            .with_wrap_lines(false)
            .with_context_lines(0)
            .tab_width(2)
            .without_cause_chain()
            .without_syntax_highlighting()
    }
}
