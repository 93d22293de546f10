//! What is said of options that are typed wrongly.

use crate::support::ruleshift;

#[test]
fn all_faults_are_told_at_once_with_the_nearest_word() {
    let typed = "odds two-turn-end-card --topic fir deck --kind tankk --cover woods --men 40 \
                 --pins none --enemy-quality veterans";
    ruleshift(typed.split_whitespace()).fails(
        2,
        &[
            "--topic `fir`: there is no such word; did you mean `fire`?",
            "--kind `tankk`: there is no such word; did you mean `tank`?",
            "--cover `woods`: there is no such word; there are open, light, hard, dug-in",
            "--men `40`: expected a whole number from 1 to 13",
            "--pins `none`: expected a whole number from 0 to 30",
            "did you mean `veteran`?",
            "did you mean `two-turn-end-cards`?",
        ],
    );
}

#[test]
fn an_option_that_no_topic_heeds_is_refused() {
    let typed = "odds --topic deck --range 5 --led";
    ruleshift(typed.split_whitespace()).fails(
        2,
        &[
            "--range is not about deck: it is for --topic spotting, fire",
            "--led is not about deck: it is for --topic assault",
        ],
    );
    let armour = "odds --topic assault --enemy-kind tank";
    ruleshift(armour.split_whitespace()).fails(2, &["`tank`", "troops on foot"]);
}
