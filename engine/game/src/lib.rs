//! The rules: state, legal choices, applying them, hook points, events, keyed luck.
