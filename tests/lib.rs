//! End-to-end tests, outside checks, determinism and tidiness: see `main.rs`.
