//! Scenario files: reading, checking, and the shipped ones.
