//! Scripts kept as data: broken ones with what each is told, hostile ones with the verdict on each.

mod broken;
mod scripts;
mod verdicts;
