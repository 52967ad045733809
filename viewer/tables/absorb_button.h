#pragma once

#include <QPushButton>

#include "viewer/document/bench_document.h"

namespace dryfit::viewer {

/// Shows while a made part no longer fits the design. Pressed, it offers the numbers that could
/// take up the difference instead, each with how much; choosing one changes it.
class AbsorbButton : public QPushButton {
  Q_OBJECT
 public:
  explicit AbsorbButton(BenchDocument& document, QWidget* parent = nullptr);

  struct Offer {
    QString words;
    BenchDocument::Edit edit;
  };
  /// What could be changed now, smallest change first. Takes a dry fit for each.
  [[nodiscard]] Result<std::vector<Offer>> offers() const;

 Q_SIGNALS:
  void refused(const QString& line);
  void taken();

 private:
  void refresh();
  void offer();

  BenchDocument& document_;
};

}  // namespace dryfit::viewer
