//! What the file says of itself: its title, what it is for, its language, how it wants to be shown and printed.
//!
//! Must not know what is on its pages.

use pdf_writer::types::Direction;
use pdf_writer::writers::Catalog;
use pdf_writer::{Finish, Name, Pdf, Ref, TextStr};
use quick_xml::escape::partial_escape;

use crate::print::About;
use crate::print::column::printable;
use crate::print::xml::sound;

/// What wrote the file.
const MAKER: &str = "oddment";

/// Writes it twice, as older readers look for it and as newer ones do; returns the number of the newer. No day and no chance
/// goes in: the same order always makes the same file.
pub(super) fn write(about: &About, pdf: &mut Pdf, next: &mut Ref) -> Ref {
    let [title, subject] = [&about.title, &about.name].map(|text| printable(text));
    pdf.document_info(next.bump())
        .title(TextStr(&title))
        .subject(TextStr(&subject))
        .creator(TextStr(MAKER))
        .producer(TextStr(MAKER));
    let [told, subject] = [title, subject].map(|text| markup(&text));
    let language = markup(about.language);
    let packet = format!(
        r#"<?xpacket begin="{bom}" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" xmlns:xmp="http://ns.adobe.com/xap/1.0/">
<dc:format>application/pdf</dc:format>
<dc:title><rdf:Alt><rdf:li xml:lang="x-default">{told}</rdf:li></rdf:Alt></dc:title>
<dc:description><rdf:Alt><rdf:li xml:lang="x-default">{subject}</rdf:li></rdf:Alt></dc:description>
<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>
<pdf:Producer>{MAKER}</pdf:Producer>
<xmp:CreatorTool>{MAKER}</xmp:CreatorTool>
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="r"?>"#,
        bom = '\u{feff}',
    );
    let id = next.bump();
    pdf.metadata(id, packet.as_bytes());
    id
}

/// The title in the window's bar, and sheets printed at their own size on paper of their own size.
pub(super) fn ask_of_viewers(catalog: &mut Catalog) {
    let mut asked = catalog.viewer_preferences();
    asked.display_doc_title(true).direction(Direction::L2R);
    asked.pair(Name(b"PrintScaling"), Name(b"None"));
    asked.pair(Name(b"PickTrayByPDFSize"), true);
    asked.finish();
}

/// `text` as it stands between the tags of XML.
fn markup(text: &str) -> String {
    partial_escape(sound(text)).into_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn markup_is_no_markup() {
        assert_eq!(markup("<b>A & B</b>\u{ffff}"), "&lt;b&gt;A &amp; B&lt;/b&gt;[U+FFFF]");
    }
}
