//! `explain`: the page of a rule, and how it comes to its verdict.

use crate::common::{Case, case};
use hobnail::rules::{all, page};
use insta::assert_snapshot;
use serde_json::Value;

const SCREE: &str = "specs/models/scree-8.hob";
const MUSTER: &str = "specs/models/muster-10.hob";

#[test]
fn without_a_file_it_is_the_page() {
    let case = case();
    for rule in all() {
        let ran = case.run(&["explain", rule.name()]);
        assert_eq!((ran.code, ran.out, ran.error.as_str()), (Some(0), page(*rule), ""), "{}", rule.name());
    }
    let fault = case.run(&["explain", "value/no-unit"]);
    assert_eq!((fault.code, fault.error.as_str()), (Some(0), ""));
}

#[test]
fn a_derivation_passing_and_refused() {
    let case = case().demo();
    let passing = ["explain", "jaw/sole-stack", SCREE, "--size", "10.5 EE"];
    assert_snapshot!("explain_passing", case.run(&passing));
    assert_snapshot!("explain_refused", case.run(&["explain", "heel/nail-point", "specs/refused/heel-nail-point.hob"]));
}

#[test]
fn names_that_are_none_and_faults_with_a_file() {
    let case = case().demo();
    let wrong = case.run(&["explain", "jaw/sole-stck"]);
    let said = "hobnail: no rule is called `jaw/sole-stck`; the nearest is `jaw/sole-stack`\n";
    assert_eq!((wrong.code, wrong.out.as_str(), wrong.error.as_str()), (Some(2), "", said));
    let fault = case.run(&["explain", "value/no-unit", SCREE]);
    assert_eq!((fault.code, fault.out.as_str()), (Some(2), ""));
}

/// A number as the derivation prints it.
fn fine(value: f64) -> String {
    let text = format!("{value:.4}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

fn json(case: &Case, rule: &str, file: &str) -> Value {
    let ran = case.run(&["explain", rule, file, "--format", "json"]);
    serde_json::from_str(&ran.out).expect("the document is JSON")
}

/// What a derivation must show of one judgement, from its JSON: each term's amount, name and place, then the three.
fn told(judgement: &Value) -> Vec<String> {
    let number = |value: &Value, key: &str| value[key].as_f64().expect("a number");
    let mut told = Vec::new();
    for term in judgement["terms"].as_array().expect("terms") {
        let half = (number(term, "hi") - number(term, "lo")) / 2.0;
        let amount = fine(number(term, "nominal"));
        let amount = if half > 0.0 { format!("{amount} +- {}", fine(half)) } else { amount };
        let place = &term["origin"]["place"];
        let place = format!("{}:{}:{}", place["path"].as_str().unwrap_or(""), place["line"], place["column"]);
        told.push(format!("{amount}|{}|{place}", term["what"].as_str().unwrap_or("")));
    }
    let unit = judgement["unit"].as_str().unwrap_or("");
    if !unit.is_empty() {
        told.extend(["sum", "limit", "margin"].map(|key| format!("{} {unit}||", fine(number(judgement, key)))));
    }
    told
}

#[test]
fn every_rule_derives_the_same_terms_for_people_and_in_json() {
    let case = case().demo();
    let mut compared = 0;
    for rule in all() {
        for file in [SCREE, MUSTER] {
            let document = json(&case, rule.name(), file);
            let human = case.run(&["explain", rule.name(), file]).out;
            let mut lines = human.lines();
            for judgement in document["judgements"].as_array().expect("judgements") {
                let verdict = judgement["verdict"].as_str().unwrap_or("").replace('-', " ");
                let head = format!(
                    "{}, {}, in {}: {verdict}",
                    judgement["model"].as_str().unwrap_or(""),
                    judgement["subject"].as_str().unwrap_or(""),
                    judgement["size"].as_str().unwrap_or("")
                );
                assert!(lines.any(|line| line == head), "{}: `{head}` is not there", rule.name());
                for told in told(judgement) {
                    let parts: Vec<&str> = told.split('|').collect();
                    let holds = |line: &str| parts.iter().all(|part| line.contains(part));
                    assert!(lines.any(holds), "{}: {told} is not told under `{head}`", rule.name());
                    compared += 1;
                }
            }
        }
    }
    assert!(compared > 300, "{compared}");
}

#[test]
fn a_refusal_s_terms_are_those_of_its_finding() {
    let case = case().demo();
    let file = "specs/refused/jaw-sole-stack.hob";
    let finding: Value =
        serde_json::from_str(&case.run(&["check", file, "--format", "json", "--size", "9 D"]).out).expect("JSON");
    let derived = json(&case, "jaw/sole-stack", file);
    let (measured, judgement) = (&finding["findings"][0]["measured"], &derived["judgements"][0]);
    for key in ["sum", "limit", "margin", "unit", "terms"] {
        assert_eq!(measured[key], judgement[key], "{key}");
    }
}
