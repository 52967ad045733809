#include "viewer/building/dry_fit_words.h"

#include <QCoreApplication>
#include <QStringList>
#include <set>

namespace dryfit::viewer {

QString dryFitWords(const BenchDocument& document, joinery::LiveFit& trials,
                    const BenchDocument::Edit& edit) {
  const auto words = [](const char* text) {
    return QCoreApplication::translate("dryFitWords", text);
  };
  const auto shown = document.assembled();
  joinery::ModelFile file = document.file();
  if (!shown || !edit(file)) return {};
  const auto tried = trials.update(file.model(), document.basis(), {}, document.unit());
  if (!tried) return {};
  std::set<std::string> known;
  for (const joinery::Finding& finding : shown->fit->findings) known.insert(finding.text);
  QStringList found;
  for (const joinery::Finding& finding : (*tried)->findings) {
    if (!known.contains(finding.text)) found << QString::fromStdString(finding.text);
  }
  constexpr qsizetype kTold = 2;
  QStringList told = found.mid(0, kTold);
  if (found.size() > kTold) told << words("And %1 more.").arg(found.size() - kTold);
  return found.isEmpty() ? words("The dry fit finds nothing new.")
                         : words("The dry fit would say: %1").arg(told.join(" "));
}

}  // namespace dryfit::viewer
