#include "viewer/tables/absorb_button.h"

#include <QApplication>
#include <QMenu>
#include <algorithm>

#include "joinery/fit/absorb.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

QString wordsOf(const joinery::Absorption& one, joinery::Unit unit) {
  const double by = one.after - one.before;
  const QString more = by > 0 ? AbsorbButton::tr("more") : AbsorbButton::tr("less");
  QString words = AbsorbButton::tr("%1: %2 instead of %3 (%4 %5)")
                      .arg(QString::fromStdString(one.what.name), lengthWords(one.after, unit),
                           lengthWords(one.before, unit), lengthWords(std::abs(by), unit), more);
  const auto found = one.resultingFindings.size();
  if (found > 0) words += AbsorbButton::tr("; new findings: %1").arg(found);
  return words;
}

}  // namespace

AbsorbButton::AbsorbButton(BenchDocument& document, QWidget* parent)
    : QPushButton(tr("What could absorb it…"), parent), document_(document) {
  setObjectName("absorb");
  connect(&document_, &BenchDocument::assembledChanged, this, &AbsorbButton::refresh);
  connect(&document_, &BenchDocument::opened, this, &AbsorbButton::refresh);
  connect(this, &QPushButton::clicked, this, &AbsorbButton::offer);
  refresh();
}

void AbsorbButton::refresh() {
  const auto shown = document_.assembled();
  const bool locked = shown && std::any_of(shown->fit->findings.begin(), shown->fit->findings.end(),
                                           [](const joinery::Finding& finding) {
                                             return finding.kind == joinery::FindingKind::locked;
                                           });
  setVisible(locked);
}

Result<std::vector<AbsorbButton::Offer>> AbsorbButton::offers() const {
  const auto all = joinery::absorptions(document_.model(), document_.basis(), {}, document_.unit());
  if (!all) return tl::unexpected<Error>(all.error());
  std::vector<Offer> offers;
  for (const joinery::Absorption& one : all->sound) {
    const auto& what = one.what;
    offers.push_back({wordsOf(one, document_.unit()),
                      what.joint.empty() ? dimensionEdit(what.name, one.afterText)
                                         : jointEdit(what.joint, what.parameter, one.afterText)});
  }
  return offers;
}

void AbsorbButton::offer() {
  QApplication::setOverrideCursor(Qt::WaitCursor);
  const auto found = offers();
  QApplication::restoreOverrideCursor();
  if (!found) {
    Q_EMIT refused(QString::fromStdString(found.error().line()));
    return;
  }
  QMenu menu;
  if (found->empty()) {
    menu.addAction(tr("No single number can: undo the change, or remake the part"))
        ->setEnabled(false);
  }
  for (const Offer& one : *found) {
    menu.addAction(one.words, this, [this, &one] {
      if (const auto done = document_.apply(tr("absorb the change"), one.edit); !done) {
        Q_EMIT refused(QString::fromStdString(done.error().line()));
      } else {
        Q_EMIT taken();
      }
    });
  }
  menu.exec(mapToGlobal(QPoint(0, height())));
}

}  // namespace dryfit::viewer
