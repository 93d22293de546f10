//! Computer players: doctrines as data, choosing from what one side knows.
