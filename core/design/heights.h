// heights: how far each surface of a line (its `what`) lies above the profile.
//
//   drain            laid, laid in, laid out, invert 0; soffit bore; crown bore + wall; collar crown + its
//                    rise; bed -wall (top of bedding); formation -wall - bedding (trench bottom)
//   road, kerb, slab finished 0, then down by the layers: each `what` is the top of its layer, formation lies
//                    under the last; on a kerb also kerb 0
//   other            both; formation by the layers where there are any, else by the pipes
//
// `whats` of the line add to these, and win where a name is the same. All else has no design, ground and peg
// among them. A wall that is not given is 0 (a finding says so); a bore, bedding or collar that is not given
// leaves what counts from it without a design. Of layers of one name the first stands. Metres, up positive.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "book/book.h"

namespace fallwright {

// A surface as found by its name; look it up once, then ask for many chainages.
struct DesignSurface {
    // Above: by `height`; the others count from the pipe there.
    enum class Kind : std::uint8_t { None, Above, Soffit, Crown, Collar, Bed, Formation };
    Kind kind = Kind::None;
    double height = 0;
    bool arriving = false;  // laid in: on the upstream side where the profile steps or pipes meet

    bool any() const { return kind != Kind::None; }
};

// Height of a surface above the profile where that pipe lies; NaN where it has none. pipe: nullptr for none.
double height_above_profile(const DesignSurface& surface, const Pipe* pipe);

// The surfaces of one line, by name.
class Heights {
  public:
    Heights() = default;
    Heights(const LineEntry& line, const Book& book);

    DesignSurface find(std::string_view what) const;
    // Names of layers given more than once, and whether layers are given where they have no meaning.
    const std::vector<std::string>& repeated_layers() const { return repeated_; }
    bool layers_unused() const { return layers_unused_; }

  private:
    void add_layers(const LineEntry& line, const Book& book);

    std::vector<std::pair<std::string, double>> above_;  // whats, then layers
    std::vector<std::string> repeated_;
    bool piped_ = false, layered_ = false, kerb_ = false, layers_unused_ = false;
};

}  // namespace fallwright
