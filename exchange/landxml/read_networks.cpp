#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "exchange/landxml/context.h"

namespace fallwright::landxml {

namespace {

using handover::EastNorth;
using handover::known;
using handover::Line;
using handover::unknown;
using xml::Element;

struct Invert {
    double level = unknown;
    bool in = false, out = false;
};

struct Structure {
    const Element* element = nullptr;
    EastNorth at;
    double cover = unknown, size = unknown;
    bool chamber = true;
    std::map<std::string, Invert> inverts;  // by pipe
};

// From where the water comes to where it goes.
struct Run {
    const Element* element = nullptr;
    std::string name;
    std::size_t from = 0, to = 0;  // structures
    double bore = unknown, wall = unknown;
    double from_level = unknown, to_level = unknown;
};

// A run along a line: chainages of its two ends.
struct Laid {
    const Run* run = nullptr;
    double from = 0, to = 0;
};

class NetworkReader {
  public:
    NetworkReader(Context& context, const Element& element, handover::Handover& to)
        : context_(context), document_(context.document), element_(element), to_(to) {}

    void read() {
        name_ = context_.text(element_, "name");
        const Element* structs = document_.child(element_, "Structs");
        const Element* pipes = document_.child(element_, "Pipes");
        if (structs == nullptr || pipes == nullptr)
            return context_.refuse(element_, "it has no Structs or no Pipes");
        if (document_.child(*structs, "Units") != nullptr || document_.child(*pipes, "Units") != nullptr)
            return context_.refuse(element_, "it has units of its own",
                                   "export the file with one element Units for all of it");
        each(*structs, "Struct", [&](const Element& structure) { this->structure(structure); });
        each(*pipes, "Pipe", [&](const Element& pipe) { this->pipe(pipe); });
        if (context_.failed()) return;
        if (!along_alignment()) by_paths();
    }

  private:
    template <class Work>
    void each(const Element& parent, std::string_view name, Work work) {
        for (const Element* child = document_.first(parent); child != nullptr;
             child = document_.next(*child)) {
            if (child->name == name) work(*child);
        }
    }

    void structure(const Element& element) {
        Structure made;
        made.element = &element;
        const std::string name = context_.text(element, "name");
        const Element* center = document_.child(element, "Center");
        if (center == nullptr) return context_.refuse(element, "it has no Center");
        const auto at = context_.place(*center);
        if (!at) return;
        made.at = {at->e, at->n};
        made.cover = context_.number(element, "elevRim", context_.scale.elevation);
        if (const Element* round = document_.child(element, "CircStruct"))
            made.size = context_.number(*round, "diameter", context_.scale.linear);
        made.chamber =
            !(context_.text(element, "desc") == "pipes meet" && document_.child(element, "Connection"));
        each(element, "Invert", [&](const Element& invert) { this->invert(made, invert); });
        if (!numbers_.emplace(name, structures_.size()).second)
            return context_.refuse(element, "two Structs have that name");
        structures_.push_back(std::move(made));
    }

    void invert(Structure& of, const Element& element) {
        Invert made;
        made.level = context_.number(element, "elev", context_.scale.elevation);
        if (!known(made.level)) return context_.refuse(element, "it has no elev");
        const std::string way = context_.text(element, "flowDir");
        made.in = way == "in" || way == "both";
        made.out = way == "out" || way == "both";
        of.inverts[context_.text(element, "refPipe")] = made;
    }

    std::optional<std::size_t> end_of(const Element& pipe, std::string_view which) {
        const std::string name = context_.text(pipe, which);
        const auto found = numbers_.find(name);
        if (found != numbers_.end()) return found->second;
        context_.refuse(pipe, std::string(which) + "=\"" + name + "\" names no Struct");
        return std::nullopt;
    }

    const Invert* invert_at(const Run& run, std::size_t structure) {
        const auto& inverts = structures_[structure].inverts;
        const auto found = inverts.find(run.name);
        if (found != inverts.end()) return &found->second;
        context_.refuse(*run.element, "Struct " + context_.text(*structures_[structure].element, "name") +
                                          " gives no Invert for it");
        return nullptr;
    }

    void pipe(const Element& element) {
        Run made;
        made.element = &element;
        made.name = context_.text(element, "name");
        const auto from = end_of(element, "refStart"), to = end_of(element, "refEnd");
        if (!from || !to) return;
        if (*from == *to) return context_.refuse(element, "it begins and ends at one Struct");
        made.from = *from;
        made.to = *to;
        if (const Element* round = document_.child(element, "CircPipe")) {
            made.bore = context_.number(*round, "diameter", context_.scale.diameter);
            made.wall = context_.number(*round, "thickness", context_.scale.diameter);
            if (made.bore == 0) made.bore = unknown;
        } else {
            context_.note(Code::ImportNotUsed, element, "it is not round and comes over without its bore");
        }
        const Invert* begins = invert_at(made, made.from);
        const Invert* ends = invert_at(made, made.to);
        if (begins == nullptr || ends == nullptr) return;
        made.from_level = begins->level;
        made.to_level = ends->level;
        // Pipes may be written against the water.
        if (begins->in && !begins->out && ends->out && !ends->in) {
            std::swap(made.from, made.to);
            std::swap(made.from_level, made.to_level);
        }
        if (!pipe_names_.insert(made.name).second)
            return context_.refuse(element, "two Pipes have that name");
        runs_.push_back(std::move(made));
    }

    // Chainage of a place on a plan; unknown where it lies off it.
    static double chainage(const Line& line, const EastNorth& at) {
        constexpr double off = 0.02;
        double start = line.start, least = off, found = unknown;
        for (std::size_t i = 1; i < line.plan.size(); ++i) {
            const EastNorth& a = line.plan[i - 1];
            const double de = line.plan[i].e - a.e, dn = line.plan[i].n - a.n;
            const double length = std::sqrt(de * de + dn * dn);
            if (length > 0) {
                const double part = ((at.e - a.e) * de + (at.n - a.n) * dn) / length;
                const bool first = i == 1, last = i + 1 == line.plan.size();
                const double onto = std::clamp(part, first ? part : 0.0, last ? part : length);
                const double e = a.e + onto * de / length - at.e, n = a.n + onto * dn / length - at.n;
                const double away = std::sqrt(e * e + n * n);
                if (away < least) {
                    least = away;
                    found = start + onto;
                }
            }
            start += length;
        }
        return found;
    }

    // The network lies on the alignment of its name, all of it one way.
    bool along_alignment() {
        std::string name = context_.text(element_, "alignmentRef");
        if (name.empty()) name = name_;
        const auto line = std::find_if(to_.lines.begin(), to_.lines.end(),
                                       [&](const Line& each) { return each.name == name; });
        if (line == to_.lines.end() || line->plan.empty() || !line->pipes.empty()) return false;
        std::vector<Laid> laid;
        for (const Run& run : runs_) {
            const double from = chainage(*line, structures_[run.from].at);
            const double to = chainage(*line, structures_[run.to].at);
            if (!known(from) || !known(to) || from == to) return false;
            laid.push_back({&run, from, to});
        }
        if (laid.empty()) return false;
        const bool with = laid.front().from < laid.front().to;
        for (const Laid& each : laid) {
            if ((each.from < each.to) != with) return false;
        }
        lay(*line, laid, with);
        return true;
    }

    // From every head down to where the water leaves or meets what is taken already.
    void by_paths() {
        std::vector<std::vector<std::size_t>> leaving(structures_.size());
        std::vector<std::size_t> arriving(structures_.size(), 0);
        for (std::size_t i = 0; i < runs_.size(); ++i) {
            leaving[runs_[i].from].push_back(i);
            ++arriving[runs_[i].to];
        }
        std::vector<bool> used(runs_.size(), false);
        std::vector<std::vector<std::size_t>> paths;
        const auto follow = [&](std::size_t run) {
            std::vector<std::size_t> path;
            for (std::size_t next = run; next < runs_.size();) {
                used[next] = true;
                path.push_back(next);
                const std::vector<std::size_t>& on = leaving[runs_[next].to];
                const auto free = std::find_if(on.begin(), on.end(), [&](std::size_t i) { return !used[i]; });
                next = free == on.end() ? runs_.size() : *free;
            }
            paths.push_back(std::move(path));
        };
        for (const bool heads : {true, false}) {
            for (std::size_t i = 0; i < runs_.size(); ++i) {
                if (!used[i] && (!heads || arriving[runs_[i].from] == 0)) follow(i);
            }
        }
        for (std::size_t i = 0; i < paths.size(); ++i)
            path_line(paths[i], paths.size() == 1 ? name_ : name_ + " " + std::to_string(i + 1));
    }

    void path_line(const std::vector<std::size_t>& path, std::string name) {
        Line line;
        line.name = std::move(name);
        line.line = element_.line;
        std::vector<Laid> laid;
        line.plan.push_back(structures_[runs_[path.front()].from].at);
        double ch = 0;
        for (const std::size_t index : path) {
            const EastNorth& to = structures_[runs_[index].to].at;
            const double de = to.e - line.plan.back().e, dn = to.n - line.plan.back().n;
            const double length = std::sqrt(de * de + dn * dn);
            constexpr double least = 0.001;
            if (length < least)
                return context_.refuse(*runs_[index].element, "its two Structs stand at one place");
            laid.push_back({&runs_[index], ch, ch + length});
            line.plan.push_back(to);
            ch += length;
        }
        lay(line, laid, true);
        to_.lines.push_back(std::move(line));
    }

    struct Meeting {
        double ch = 0, in = unknown, out = unknown;
        std::size_t structure = 0;
    };

    void lay(Line& line, const std::vector<Laid>& laid, bool with) {
        line.use = "drain";
        line.flow = with ? Line::Flow::With : Line::Flow::Against;
        std::map<std::size_t, Meeting> meetings;
        for (const Laid& each : laid) {
            Meeting& head = meetings[each.run->from];
            head.ch = each.from;
            head.out = each.run->from_level;
            Meeting& foot = meetings[each.run->to];
            foot.ch = each.to;
            foot.in = each.run->to_level;
            line.pipes.push_back(
                {std::min(each.from, each.to), std::max(each.from, each.to), each.run->bore, each.run->wall});
        }
        std::sort(line.pipes.begin(), line.pipes.end(),
                  [](const handover::Pipe& a, const handover::Pipe& b) { return a.from < b.from; });
        std::vector<Meeting> all;
        for (auto& [structure, meeting] : meetings) {
            meeting.structure = structure;
            if (!known(meeting.in)) meeting.in = meeting.out;
            if (!known(meeting.out)) meeting.out = meeting.in;
            all.push_back(meeting);
        }
        std::sort(all.begin(), all.end(), [](const Meeting& a, const Meeting& b) { return a.ch < b.ch; });
        const bool profile = line.profile.empty();
        for (const Meeting& meeting : all) {
            const Structure& structure = structures_[meeting.structure];
            if (profile)
                line.profile.push_back(
                    {meeting.ch, with ? meeting.in : meeting.out, with ? meeting.out : meeting.in, 0});
            if (structure.chamber)
                line.chambers.push_back({context_.text(*structure.element, "name"), meeting.ch, meeting.in,
                                         meeting.out, structure.cover, structure.size});
        }
    }

    Context& context_;
    const xml::XmlDocument& document_;
    const Element& element_;
    handover::Handover& to_;
    std::string name_;
    std::vector<Structure> structures_;
    std::map<std::string, std::size_t> numbers_;
    std::vector<Run> runs_;
    std::set<std::string> pipe_names_;
};

}  // namespace

void read_networks(Context& context, const Element& networks, handover::Handover& to) {
    for (const Element* each = context.document.first(networks); each != nullptr;
         each = context.document.next(*each)) {
        if (each->name == "PipeNetwork") NetworkReader(context, *each, to).read();
    }
}

}  // namespace fallwright::landxml
