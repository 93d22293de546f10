//! Statistics, the report tree and its renderers.
