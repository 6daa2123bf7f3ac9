#include "book/fields.h"

#include <utility>

#include "quantity/gradient.h"

namespace fallwright {

namespace {

// What is known better than this is known: its weight would only spoil the arithmetic.
constexpr double least_sd = 1e-12;

}  // namespace

void EntryContext::refuse(Code code, std::string message) {
    ok = false;
    findings.push_back(finding(code, {id()}, std::move(message)));
}

void EntryContext::refuse(Code code, std::string message, std::string cure) {
    ok = false;
    findings.push_back(finding(code, {id()}, std::move(message), std::move(cure)));
}

Fields::Fields(EntryContext& context, std::uint32_t object, std::string path)
    : context_(context),
      object_(object),
      path_(std::move(path)),
      present_(context.record.node(object).shapes) {}

std::string Fields::path(std::string_view key) const {
    return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
}

std::uint32_t Fields::find(std::string_view key, std::uint8_t shape) {
    const std::uint32_t end = context_.record.node(object_).end;
    for (std::uint32_t child = object_ + 1; child < end; child = context_.record.node(child).end) {
        const Node& member = context_.record.node(child);
        if (member.shape != shape || context_.record.key(member) != key) continue;
        context_.record.mark_known(child);
        return child;
    }
    return 0;
}

bool Fields::is_null(std::string_view key) {
    const std::uint32_t node = take(key);
    return node != 0 && context_.record.node(node).type == NodeType::Null;
}

void Fields::wrong_type(std::string_view key, std::string_view wanted) {
    context_.refuse(Code::WrongType, path(key) + " is no " + std::string(wanted));
}

void Fields::out_of_range(std::string_view key, std::string_view limits) {
    context_.refuse(Code::OutOfRange, path(key) + " must be " + std::string(limits));
}

double Fields::number_at(std::uint32_t node, std::string_view key, bool is_length) {
    const Node& value = context_.record.node(node);
    if (value.type != NodeType::Number) {
        wrong_type(key, "number");
        return 0;
    }
    const double metres = is_length ? value.number * context_.book.metres_per_unit() : value.number;
    if (std::fabs(metres) > Decimal::limit_metres) {
        out_of_range(key, is_length ? "within a million kilometres" : "within a thousand million");
        return 0;
    }
    return metres;
}

Maybe Fields::number(std::string_view key) {
    const std::uint32_t node = given(key);
    return node == 0 ? Maybe{} : Maybe{number_at(node, key, false)};
}

double Fields::number_or(std::string_view key, double fallback) {
    return number(key).or_else(fallback);
}

Maybe Fields::length(std::string_view key) {
    const std::uint32_t node = given(key);
    return node == 0 ? Maybe{} : Maybe{number_at(node, key, true)};
}

double Fields::length_or(std::string_view key, double fallback) {
    return length(key).or_else(fallback);
}

double Fields::required_length(std::string_view key) {
    const Maybe value = length(key);
    if (!value.has()) context_.refuse(Code::MissingField, path(key) + " is missing");
    return value.or_else(0);
}

Maybe Fields::sd(std::string_view key, bool is_length) {
    const std::uint32_t node = given(key);
    if (node == 0) return {};
    const bool was_ok = context_.ok;
    const double value = number_at(node, key, is_length);
    if (value >= 0) return {value < least_sd ? 0 : value};
    context_.refuse(Code::BadSd, path(key) + " is negative; the default is used");
    context_.ok = was_ok;
    return {};
}

double Fields::sd_or(std::string_view key, double fallback, bool is_length) {
    return sd(key, is_length).or_else(fallback);
}

Maybe Fields::positive_length(std::string_view key) {
    const Maybe value = length(key);
    if (value.has() && !(value.value > 0)) out_of_range(key, "above 0");
    return value;
}

Maybe Fields::thickness(std::string_view key) {
    const Maybe value = length(key);
    if (value.value < 0) out_of_range(key, "0 or more");
    return value;
}

double Fields::gradient_at(std::uint32_t node, std::string_view key) {
    const Node& value = context_.record.node(node);
    if (value.type != NodeType::Text) return number_at(node, key, false);
    const Result<Gradient> parsed = parse_gradient(context_.record.text(value));
    if (parsed) return parsed->ratio();
    context_.refuse(Code::WrongType, path(key) + ": " + parsed.finding().message, parsed.finding().cure);
    return 0;
}

Maybe Fields::gradient(std::string_view key) {
    const std::uint32_t node = given(key);
    return node == 0 ? Maybe{} : Maybe{gradient_at(node, key)};
}

NameId Fields::name_at(std::uint32_t node, std::string_view key) {
    const Node& value = context_.record.node(node);
    if (value.type != NodeType::Text) {
        wrong_type(key, "text");
        return no_name;
    }
    return context_.book.names.intern(context_.record.text(value));
}

NameId Fields::name(std::string_view key) {
    const std::uint32_t node = given(key);
    return node == 0 ? no_name : name_at(node, key);
}

NameId Fields::required_name(std::string_view key) {
    const bool was_ok = context_.ok;
    const NameId value = name(key);
    if (value == no_name && context_.ok == was_ok)
        context_.refuse(Code::MissingField, path(key) + " is missing");
    return value;
}

std::string Fields::text(std::string_view key) {
    if (!has(key)) return "";
    const Node& value = context_.record.node(take(key));
    if (value.type != NodeType::Text) wrong_type(key, "text");
    return std::string(context_.record.text(value));
}

bool Fields::flag(std::string_view key, bool fallback) {
    if (!has(key)) return fallback;
    const Node& value = context_.record.node(take(key));
    if (value.type != NodeType::Bool) wrong_type(key, "true or false");
    return value.boolean;
}

int Fields::choice(std::string_view key, std::initializer_list<std::string_view> words) {
    if (!has(key)) return -1;
    const Node& value = context_.record.node(take(key));
    std::string all;
    int index = 0;
    for (const std::string_view word : words) {
        if (value.type == NodeType::Text && context_.record.text(value) == word) return index;
        all += (index == 0 ? "" : ", ") + std::string(word);
        ++index;
    }
    context_.refuse(Code::WrongType, path(key) + " must be one of " + all);
    return -1;
}

std::vector<std::uint32_t> Fields::array(std::string_view key) {
    std::vector<std::uint32_t> elements;
    if (!has(key)) return elements;
    const std::uint32_t parent = take(key);
    if (context_.record.node(parent).type != NodeType::Array) {
        wrong_type(key, "list");
        return elements;
    }
    const std::uint32_t end = context_.record.node(parent).end;
    for (std::uint32_t child = parent + 1; child < end; child = context_.record.node(child).end)
        elements.push_back(child);
    return elements;
}

std::vector<NameId> Fields::names(std::string_view key) {
    std::vector<NameId> all;
    for (const std::uint32_t node : array(key)) all.push_back(name_at(node, key));
    return all;
}

std::vector<std::array<double, 2>> Fields::length_pairs(std::string_view key) {
    std::vector<std::array<double, 2>> pairs;
    for (const std::uint32_t node : array(key)) {
        const Node& pair = context_.record.node(node);
        if (pair.type != NodeType::Array || pair.end != node + 3) {
            wrong_type(key, "list of pairs");
            return pairs;
        }
        pairs.push_back({number_at(node + 1, key, true), number_at(node + 2, key, true)});
    }
    return pairs;
}

std::array<Maybe, 2> Fields::pair(std::string_view key, bool is_length) {
    const std::vector<std::uint32_t> nodes = array(key);
    if (nodes.empty()) return {};
    if (nodes.size() != 2) {
        wrong_type(key, "pair of numbers");
        return {};
    }
    return {Maybe{number_at(nodes[0], key, is_length)}, Maybe{number_at(nodes[1], key, is_length)}};
}

void Fields::unknown() {
    const std::uint32_t end = context_.record.node(object_).end;
    for (std::uint32_t child = object_ + 1; child < end; child = context_.record.node(child).end) {
        const Node& member = context_.record.node(child);
        if (member.known) continue;
        context_.findings.push_back(
            finding(Code::UnknownField, {context_.id()},
                    "field " + path(context_.record.key(member)) + " is not known; it is kept, not used"));
    }
}

void for_each_object(Fields& fields, std::string_view key, const std::function<void(Fields&)>& each) {
    int index = 0;
    for (const std::uint32_t node : fields.array(key)) {
        if (fields.context().record.node(node).type != NodeType::Object)
            return fields.wrong_type(key, "list of objects");
        Fields element(fields.context(), node, std::string(key) + "[" + std::to_string(index++) + "]");
        each(element);
        element.unknown();
    }
}

}  // namespace fallwright
