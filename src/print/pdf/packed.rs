//! Streams made smaller (ISO 32000-1, 7.4.4: zlib's format, RFC 1950, of deflated data, RFC 1951).
//!
//! Must not know what a stream holds.

use miniz_oxide::deflate::compress_to_vec_zlib;

/// How hard it is tried, from 0 to 10; what more would save is not worth the time.
const EFFORT: u8 = 6;

/// `bytes` for a stream with the filter `FlateDecode`. The same bytes always become the same.
pub(super) fn packed(bytes: &[u8]) -> Vec<u8> {
    compress_to_vec_zlib(bytes, EFFORT)
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may fail loudly")]
mod tests {
    use super::*;

    #[test]
    fn what_is_packed_can_be_had_back_and_is_smaller() {
        let bytes = b"0 0 m 10 0 l 10 10 l h S ".repeat(40);
        let smaller = packed(&bytes);
        assert_eq!(miniz_oxide::inflate::decompress_to_vec_zlib(&smaller).unwrap(), bytes);
        assert!(smaller.len() < bytes.len() / 10);
    }
}
