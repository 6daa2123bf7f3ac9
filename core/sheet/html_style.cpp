#include "sheet/html_style.h"

#include <string_view>

#include "base/print.h"
#include "sheet/markup.h"
#include "sheet/type.h"

namespace fallwright::sheet {

namespace {

// For all media. Sizes in rem follow what the reader has set; drawings are on paper's millimetres.
constexpr std::string_view screen = R"(
*{box-sizing:border-box}
html{color-scheme:light;-webkit-text-size-adjust:100%}
body{margin:0;background:#fff;color:#1b1b1f;font-size:1rem;line-height:1.45;overflow-wrap:break-word}
main{max-width:62rem;margin:0 auto;padding:1rem}
h1,h2,h3,h4{line-height:1.2;margin:1.6em 0 .5em;break-after:avoid;text-wrap:balance}
h1{font-size:1.7rem;margin-top:.5em}
h2{font-size:1.3rem;border-bottom:2px solid #1b1b1f;padding-bottom:.15em}
h3{font-size:1.1rem}
h4{font-size:1rem}
p,ul,dl{margin:.5em 0}
ul{padding-left:1.3em}
li{margin:.2em 0}
.subject{font-size:1.1rem;margin-top:0}
.small{font-size:.85rem}
.caution,.finding{border:1px solid #1b1b1f;border-left-width:.4rem;padding:.4rem .7rem;break-inside:avoid}
.finding{border-style:dashed;border-left-style:solid}
nav{border:1px solid #8a8a92;padding:.4rem .8rem;margin:1rem 0}
nav ul{list-style:none;padding:0;margin:.3em 0;columns:16rem}
nav a{display:inline-block;padding:.35em 0}
a{color:inherit}
dl div{display:grid;grid-template-columns:minmax(6rem,28%) 1fr;gap:0 1rem;padding:.2em 0;border-bottom:1px solid #d6d6da;break-inside:avoid}
dt{font-weight:bold}
dd{margin:0}
.blank{border-bottom:1px solid #1b1b1f;min-height:2em}
.caption{font-weight:bold;margin:1.2em 0 .3em;break-after:avoid}
.scroll{overflow-x:auto;max-width:100%;margin:.3em 0 1em}
.scroll:focus-visible{outline:3px solid #1b1b1f;outline-offset:2px}
table{border-collapse:collapse;font-size:.9rem;font-variant-numeric:tabular-nums}
thead{display:table-header-group}
th,td{padding:.22em .5em;vertical-align:top;text-align:left;font-weight:normal;white-space:nowrap}
thead th,thead td{font-weight:bold;vertical-align:bottom;white-space:normal;border-top:1.5px solid #1b1b1f;border-bottom:1.5px solid #1b1b1f}
tbody tr{border-bottom:1px solid #d6d6da;break-inside:avoid}
tbody tr.ruled,tbody tr:last-child{border-bottom:1.5px solid #1b1b1f}
th.r,td.r{text-align:right}
th.c,td.c{text-align:center}
td.w,tbody th.w{white-space:normal;min-width:11rem}
b.s{font-weight:bold}
.mark{width:.8em;height:.8em;margin-right:.35em;vertical-align:-.05em}
figure{margin:1.2em 0;break-inside:avoid}
figure svg{display:block}
figcaption{font-size:.85rem;margin-top:.4em}
.sign{display:flex;flex-wrap:wrap;gap:1rem;margin:1.5em 0;break-inside:avoid}
.sign div{flex:1 1 12rem;padding-top:4.5em}
.sign p{border-top:1px solid #1b1b1f;margin:0;padding-top:.2em;font-size:.85rem}
hr{border:0;border-top:1px solid #8a8a92;margin:2em 0}
footer{border-top:1px solid #8a8a92;margin-top:2em;padding-top:.4em;font-size:.85rem}
)";

constexpr std::string_view print = R"(
@media print{
html{font-size:10pt}
body{line-height:1.32;print-color-adjust:exact;-webkit-print-color-adjust:exact}
main{max-width:none;padding:0}
nav{display:none}
.scroll{overflow:visible;margin:.2em 0 .8em}
p,li{orphans:2;widows:2}
table{font-size:8.5pt}
table.s1{font-size:7.8pt}
table.s2{font-size:7pt}
table.s3{font-size:6.5pt}
table.s4{font-size:6pt}
th,td{padding:.18em 1.1mm}
td.w,tbody th.w{min-width:0}
figure svg{max-width:100%;height:auto}
.turned{page:turned}
hr{break-before:page;border:0;margin:0;height:0}
}
)";

// A page of HTML is not measured here, so one that is to be one sheet is printed small.
constexpr std::string_view one_sheet = R"(
@media print{
html{font-size:7.6pt}
h1,h2,h3,h4{margin:.9em 0 .3em}
dl div{padding:.1em 0}
.sign div{padding-top:3.5em}
}
)";

// Everything but letters and digits by its number, so that no foot ends the string or the style sheet.
void append_css_string(std::string& out, std::string_view text) {
    constexpr std::string_view digits = "0123456789abcdef";
    std::string plain;
    append_plain(plain, text);
    out += '"';
    for (std::size_t at = 0; at < plain.size();) {
        const char32_t c = next_character(plain, at);
        if ((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9')) {
            out += static_cast<char>(c);
            continue;
        }
        out += '\\';
        for (int shift = 20; shift >= 0; shift -= 4)
            out += digits[(c >> static_cast<unsigned>(shift)) & 0xfU];
    }
    out += '"';
}

void append_page(std::string& out, PaperSize paper, bool turned, const std::string& foot) {
    out += turned ? "@page turned{size:" : "@page{size:";
    append_trimmed(out, turned ? paper.height : paper.width, 1);
    out += "mm ";
    append_trimmed(out, turned ? paper.width : paper.height, 1);
    out += "mm;margin:";
    append_trimmed(out, paper.margin, 1);
    out += "mm;@bottom-left{content:";
    append_css_string(out, foot);
    out +=
        ";font-size:7.5pt}@bottom-right{content:\"page \" counter(page) \" of \" "
        "counter(pages);font-size:7.5pt}}\n";
}

}  // namespace

std::string html_style(const Document& document) {
    std::string out = "\n";
    append_page(out, size_of(document.paper), false, document.foot);
    append_page(out, size_of(document.paper), true, document.foot);
    out += "html{font-family:";
    out += type_family;
    out += "}";
    out += screen;
    out += print;
    if (document.one_sheet) out += one_sheet;
    return out;
}

}  // namespace fallwright::sheet
