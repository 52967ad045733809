#pragma once

class QLineEdit;

namespace dryfit::viewer {

class BenchDocument;

/// Completes the names of dimensions, materials' thicknesses, and parts' faces and sizes while an
/// expression is typed, one word of it at a time.
void completeNames(QLineEdit* line, const BenchDocument& document);

}  // namespace dryfit::viewer
