#include "exchange/native/pdf/blocks.h"

#include <algorithm>
#include <string>

#include "base/print.h"

namespace fallwright::pdf {

namespace {

constexpr double after = 2;  // under a block

// --- statements

bool framed(const sheet::Statement& statement) {
    return statement.tone == sheet::Tone::Caution || statement.tone == sheet::Tone::Finding;
}
Style style_of(const sheet::Statement& statement) {
    if (statement.tone == sheet::Tone::Small) return small;
    return statement.tone == sheet::Tone::Strong ? strong : body;
}

constexpr double frame_pad = 1.8, frame_bar = 1.4, frame_indent = frame_bar + 2.2;

std::vector<std::string_view> lines_of(Flow& flow, const sheet::Statement& statement) {
    const Style style = style_of(statement);
    // A caution's word is set bold and wider for it.
    const double column = flow.width() - (framed(statement) ? frame_indent + 2 * frame_pad : 0);
    const std::string word = word_before(statement);
    const std::string_view text =
        flow.clean(word.empty() ? std::string_view(statement.text) : flow.keep(word + statement.text));
    return flow.type().lines(text, style.size, style.bold, column);
}

// The frame around a run of lines: a broad bar on the left, thin lines around.
void frame(Flow& flow, double top, double bottom, bool dashed) {
    const double left = flow.left(), right = left + flow.width();
    const sheet::Stroke thin{0.18, sheet::Ink::Line, dashed ? sheet::Dash::Dashed : sheet::Dash::Solid};
    top -= frame_pad;
    bottom += frame_pad;
    flow.put(Rule{{left, top}, {right, top}, thin});
    flow.put(Rule{{right, top}, {right, bottom}, thin});
    flow.put(Rule{{right, bottom}, {left, bottom}, thin});
    flow.put(Rule{{left + frame_bar / 2, top},
                  {left + frame_bar / 2, bottom},
                  {frame_bar, sheet::Ink::Line, sheet::Dash::Solid}});
}

double framed_height(const sheet::Statement& statement, std::size_t lines) {
    return static_cast<double>(lines) * style_of(statement).leading() + 2 * frame_pad;
}

// --- pictures

constexpr double caption_gap = 2;

struct Fitted {
    bool turned = false;
    double scale = 1;
    std::vector<std::string_view> title, said, reduced;
    double height = 0;  // with its caption
};

void set_caption(Flow& flow, const sheet::Figure& figure, Fitted& fitted) {
    const double column = flow.width_if(fitted.turned);
    fitted.title = flow.type().lines(flow.clean(figure.title), small.size, true, column);
    fitted.said = flow.type().lines(flow.clean(figure.said), small.size, false, column);
    if (fitted.scale < 1) {
        const std::string text = "Drawn at " + trimmed(100 * fitted.scale, 0) +
                                 " % of its size to fit the sheet: scales stated in it do not hold.";
        fitted.reduced = flow.type().lines(flow.keep(text), small.size, false, column);
    }
    const std::size_t lines = fitted.title.size() + fitted.said.size() + fitted.reduced.size();
    fitted.height = fitted.scale * figure.height + caption_gap + static_cast<double>(lines) * small.leading();
}

Fitted fit(Flow& flow, const sheet::Figure& figure) {
    Fitted fitted;
    fitted.turned = figure.width > flow.width_if(false) + 1e-6 && figure.width > figure.height;
    set_caption(flow, figure, fitted);
    const double caption = fitted.height - figure.height, whole = flow.height_if(fitted.turned);
    // Under a caption without end the figure keeps half a sheet.
    const double most = std::max(whole - caption - small.leading(), whole / 2);
    fitted.scale = std::min({1.0, flow.width_if(fitted.turned) / figure.width, most / figure.height});
    // A figure just as wide as the sheet is not reduced by what rounding leaves.
    if (fitted.scale > 1 - 1e-6) fitted.scale = 1;
    if (fitted.scale < 1) set_caption(flow, figure, fitted);
    return fitted;
}

constexpr double signature_room = 17, fact_gap = 1.1, blank_height = 8;
constexpr double name_share = 0.28;

std::vector<std::string_view> lines_of_value(Flow& flow, const sheet::Facts::Fact& fact) {
    return flow.type().lines(flow.clean(fact.value), body.size, false, flow.width() * (1 - name_share));
}
std::vector<std::string_view> lines_of_name(Flow& flow, const sheet::Facts::Fact& fact) {
    return flow.type().lines(flow.clean(fact.name), body.size, true, flow.width() * name_share - 3);
}
double height_of(Flow& flow, const sheet::Facts::Fact& fact) {
    const auto lines = std::max(lines_of_name(flow, fact).size(), lines_of_value(flow, fact).size());
    const double height = static_cast<double>(lines) * body.leading() + 2 * fact_gap;
    return fact.value.empty() ? std::max(height, blank_height) : height;
}

// The boxes to sign in, side by side.
struct Boxes {
    static constexpr double between = 6;
    double width = 0;
    std::vector<std::vector<std::string_view>> under;

    Boxes(Flow& flow, const sheet::Signature& signature) {
        const auto count = static_cast<double>(std::max<std::size_t>(signature.under.size(), 1));
        width = (flow.width() - (count - 1) * between) / count;
        for (const std::string& text : signature.under) {
            under.push_back(flow.type().lines(flow.clean(text), small.size, false, width));
        }
    }
    double height() const {
        std::size_t lines = 1;
        for (const auto& each : under) lines = std::max(lines, each.size());
        return signature_room + static_cast<double>(lines) * small.leading();
    }
};

}  // namespace

double lead_of(Flow& flow, const sheet::Statement& statement) {
    const std::size_t lines = lines_of(flow, statement).size();
    if (framed(statement)) return framed_height(statement, lines);
    return static_cast<double>(std::min<std::size_t>(lines, 2)) * style_of(statement).leading();
}

double lead_of(Flow& /*flow*/, const sheet::List& list) {
    return list.items.empty() ? 0 : 2 * body.leading();
}

double lead_of(Flow& flow, const sheet::Facts& facts) {
    double height = 0;
    for (std::size_t k = 0; k < std::min<std::size_t>(facts.facts.size(), 2); ++k)
        height += height_of(flow, facts.facts[k]);
    return height;
}

double lead_of(Flow& flow, const sheet::Drawn& drawn) {
    return fit(flow, drawn.figure).height;
}

double lead_of(Flow& flow, const sheet::Signature& signature) {
    return Boxes(flow, signature).height();
}

bool turns(Flow& flow, const sheet::Drawn& drawn) {
    return fit(flow, drawn.figure).turned;
}

void place(Flow& flow, const sheet::Statement& statement) {
    const Style style = style_of(statement);
    const std::vector<std::string_view> lines = lines_of(flow, statement);
    if (!framed(statement)) {
        flow.lines(lines, flow.left(), style);
        return flow.gap(after);
    }
    flow.need(framed_height(statement, lines.size()));
    flow.down(frame_pad);
    const auto around = [&](double top, double bottom) {
        frame(flow, top, bottom, statement.tone == sheet::Tone::Finding);
    };
    flow.lines(lines, flow.left() + frame_indent, style, around, word_before(statement).size());
    flow.down(frame_pad);
    flow.gap(after);
}

void place(Flow& flow, const sheet::List& list) {
    constexpr double indent = 4.5, between = 0.6;
    constexpr std::string_view bullet = "\xe2\x80\xa2";
    for (const std::string& item : list.items) {
        const auto lines = flow.type().lines(flow.clean(item), body.size, false, flow.width() - indent);
        bool first = true;
        flow.lines(lines, flow.left() + indent, body, [&](double top, double /*bottom*/) {
            if (first)
                flow.put(
                    Words{{flow.left() + 1, top + body.drop()}, bullet, body.size, false, Setting::Fine});
            first = false;
        });
        flow.gap(between);
    }
    if (!list.items.empty()) flow.gap(after);
}

// A name without end stands over its value, so that it can go over the sheets.
void place_over(Flow& flow, const sheet::Facts::Fact& fact) {
    flow.lines(flow.type().lines(flow.clean(fact.name), strong.size, true, flow.width()), flow.left(),
               strong);
    flow.lines(flow.type().lines(flow.clean(fact.value), body.size, false, flow.width()), flow.left(), body);
}

void place(Flow& flow, const sheet::Facts& facts) {
    for (const sheet::Facts::Fact& fact : facts.facts) {
        const double value_x = flow.left() + flow.width() * name_share, height = height_of(flow, fact);
        if (height > flow.height()) {
            place_over(flow, fact);
            continue;
        }
        flow.need(height);
        const double top = flow.y();
        const auto names = lines_of_name(flow, fact);
        for (std::size_t k = 0; k < names.size(); ++k) {
            const double y = top + fact_gap + static_cast<double>(k) * body.leading() + body.drop();
            flow.put(Words{{flow.left(), y}, names[k], body.size, true, Setting::Fine});
        }
        flow.down(fact_gap);
        if (!fact.value.empty()) flow.lines(lines_of_value(flow, fact), value_x, body);
        flow.down(top + height - flow.y());
        const bool blank = fact.value.empty();
        flow.rule(blank ? value_x : flow.left(), flow.left() + flow.width(), flow.y(), blank ? 0.25 : 0.1,
                  blank ? sheet::Ink::Line : sheet::Ink::Faint);
    }
    if (!facts.facts.empty()) flow.gap(after + 1);
}

void place(Flow& flow, const sheet::Drawn& drawn) {
    const Fitted fitted = fit(flow, drawn.figure);
    flow.need(fitted.height);
    flow.put(Picture{&drawn.figure, {flow.left(), flow.y()}, fitted.scale});
    flow.down(fitted.scale * drawn.figure.height + caption_gap);
    // They stay on the figure's sheet: its height was asked for with them, or the sheet is the figure's
    // alone.
    flow.lines(fitted.title, flow.left(), small_strong);
    flow.lines(fitted.said, flow.left(), small);
    flow.lines(fitted.reduced, flow.left(), small);
    flow.gap(after + 2);
}

void place(Flow& flow, const sheet::Signature& signature) {
    const Boxes boxes(flow, signature);
    flow.need(std::min(boxes.height(), flow.height()));
    const double y = flow.y() + signature_room;
    double x = flow.left();
    for (const auto& lines : boxes.under) {
        flow.rule(x, x + boxes.width, y, 0.25);
        for (std::size_t k = 0; k < lines.size(); ++k) {
            const double baseline = y + static_cast<double>(k) * small.leading() + small.drop();
            flow.put(Words{{x, baseline}, lines[k], small.size, false, Setting::Fine});
        }
        x += boxes.width + Boxes::between;
    }
    flow.down(boxes.height());
    flow.gap(after);
}

}  // namespace fallwright::pdf
