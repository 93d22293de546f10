//! What a finished game and a finished run say: the serialised types.
