//! House rules written in Rhai: loading, checking, sandbox, diagnostics.
