// html_style: the one style sheet of a document as HTML. Inside sheet only.
#pragma once

#include <string>

#include "sheet/document.h"

namespace fallwright::sheet {

// Without the <style> around it. The document's paper, and its foot at the edge of each printed page, are in
// it; holds none of < > & whatever the foot is.
std::string html_style(const Document& document);

}  // namespace fallwright::sheet
