// The commands in the help pages do what their pages say.

#include <gtest/gtest.h>

#include <QDir>
#include <QTemporaryDir>

#include "tests/support/scratch.h"
#include "viewer/look/help_pages.h"

namespace dryfit::viewer {
namespace {

TEST(HelpCommands, DoWhatTheirPagesSay) {
  const QTemporaryDir folder;
  const QString before = QDir::currentPath();
  ASSERT_TRUE(QDir::setCurrent(folder.path()));
  int commands = 0;
  for (const QString& name : helpPages()) {
    for (const QString& line : helpPage(name).split('\n')) {
      if (!line.startsWith("    dryfit ")) continue;
      ++commands;
      std::vector<std::string> words;
      for (const QString& word : line.trimmed().split(' ').mid(1)) {
        words.push_back(word.toStdString());
      }
      const auto said = testing::dryfitCommand(words);
      EXPECT_EQ(said.code, 0) << line.toStdString() << "\n" << said.err;
    }
  }
  EXPECT_TRUE(QDir::setCurrent(before));
  EXPECT_GE(commands, 3);
}

}  // namespace
}  // namespace dryfit::viewer
