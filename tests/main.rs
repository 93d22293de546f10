//! The test suite of the whole project.
