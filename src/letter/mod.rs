//! Characters, the reference face and stand-ins.
