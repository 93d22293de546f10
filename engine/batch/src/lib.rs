//! Many games, any number of threads, the same result.
