#pragma once

#include <QList>
#include <QMainWindow>
#include <QPointer>
#include <QTimer>
#include <filesystem>
#include <optional>

#include "joinery/building/face_moves.h"
#include "joinery/fit/live_fit.h"
#include "joinery/piece/place_on_part.h"
#include "viewer/document/bench_document.h"
#include "viewer/document/packet_desk.h"
#include "viewer/document/recovery.h"
#include "viewer/document/stock_desk.h"

class QAction;
class QActionGroup;
class QDialog;
class QLabel;
class QMenu;
class QPushButton;
class QProgressDialog;
class QTableView;
class QStackedWidget;
class QTabWidget;
class QToolBar;
class QToolButton;

namespace dryfit::viewer {

struct Dress;

class DimensionTable;
class DrawingPage;
class FaceDialog;
class FindingTable;
class HeadedPanel;
class JointPage;
class JointTree;
class LayoutPage;
class MeasuredTable;
class PartPage;
class PartTree;
class SightBar;
class StartPage;
class StockPage;
class View3d;
enum class Pointing;

/// The window of the bench: the piece, what the dry fit found, and the lists of parts, joints,
/// dimensions and measured sizes, tied together.
class MainWindow : public QMainWindow {
  Q_OBJECT
 public:
  explicit MainWindow(QWidget* parent = nullptr);
  ~MainWindow() override;

  /// Opens a piece; what is wrong with it is told in the status bar. False when not opened.
  bool openFile(const std::filesystem::path& path);
  /// Opens a stock list for it; told likewise.
  bool openStock(const std::filesystem::path& path);
  /// Shows where a piece is begun.
  void showStart();
  /// Writes the bench packet of the piece as it stands into a folder, with a way to stop it; the
  /// status bar tells the outcome.
  void writePacket(const std::filesystem::path& folder);
  /// Offers unsaved work of a window that ended without asking; nothing where there is none.
  void offerRecovery();
  /// Tells in the status bar what went wrong.
  void warn(const QString& line);

  [[nodiscard]] BenchDocument& document() { return document_; }
  [[nodiscard]] StockDesk& desk() { return desk_; }
  [[nodiscard]] PacketDesk& packets() { return packets_; }
  [[nodiscard]] View3d& view() { return *view_; }

 protected:
  void closeEvent(QCloseEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void makePanels();
  [[nodiscard]] QTabWidget* makePartLists();
  [[nodiscard]] QTabWidget* makeNumberPages();
  void makeFindingPanel();
  void makeTables();
  void makeStatusLine();
  [[nodiscard]] QWidget* makeDimensionPage();
  [[nodiscard]] QTabWidget* makePiecePages();
  [[nodiscard]] QTabWidget* makeLowerPages();
  void makeActions();
  void makeToolBar();
  void tieTogether();

  void showBench();
  void begin(const joinery::ModelFile& file);
  void askAndOpen();
  void askAndWritePacket();
  void showPacketFolder();
  void tiePacket();
  void makeBuildMenu();
  void makePointMenu();
  void tieFaces();
  void makeSightActions(QMenu& menu);
  void makeWindowMenu();
  void makeHelpMenu();
  void dressAnew(const Dress& dress);
  void openWindow();
  /// The help page for where the keyboard is, or the page of that name.
  void showHelp(const QString& page);
  [[nodiscard]] QString pageHere() const;
  /// F1 in a dialog shows that page: the window's own keys do not reach it.
  void helpIn(QDialog* dialog, const QString& page);
  void askForPicture();
  void writePictureTo(const QString& file, QSize size);
  /// A dialog beside the view, whose faces it takes; goes when it is closed.
  void openBeside(FaceDialog* dialog);
  void askForPlaceOfFace();
  void dragFace(const joinery::PlaceOnPart& place, double by, bool begins);
  void showTaken(const std::vector<joinery::PlaceOnPart>& places);
  void copyMeasure();
  void pointAt(Pointing pointing);
  /// "Left side, right face: left_side.right."
  [[nodiscard]] QString placeWords(const joinery::PlaceOnPart& place) const;
  /// Opens a dialog that goes when it is closed.
  void openDialog(QDialog* dialog);
  void askForPart();
  void joinChosen();
  void joinAll();
  void eraseChosenJoint();
  /// The joint under the pointer, or of the face that is pointed at, becomes the chosen one.
  void chooseJointHere();
  /// To the page of one joint.
  void changeChosenJoint();
  /// The number in the field where the keyboard is becomes a dimension.
  void nameThisNumber();
  void askForDimension();
  void repeatChosen();
  void renameChosen();
  void eraseChosen();
  void askForMaterial();
  void askForGroup();
  [[nodiscard]] std::vector<std::string> chosenNames() const;
  void makeAssemblyActions(QMenu& menu);
  void askForAssembly();
  void askForOpening();
  void showUse();
  void dissolveChosen();
  /// The use of a sub-assembly that the first chosen part stands in; empty where it is in none.
  [[nodiscard]] std::string chosenUse() const;
  /// Changes the number that would put the chosen finding right.
  void mendChosen();
  void showMend(const joinery::Finding* finding);
  void endPacketProgress();
  bool save();
  bool saveAs();
  bool saveTo(const std::filesystem::path& path,
              BenchDocument::Over over = BenchDocument::Over::ownOnly);
  /// Reads the file from the disk anew.
  void readAgain();
  /// Another program may have written the file meanwhile.
  void lookAtDisk();
  /// Asks about unsaved changes; true when it is fine to go on.
  bool mayLeave();

  void choose(const std::vector<joinery::PartId>& parts);
  void showChosen(const std::vector<joinery::PartId>& parts);
  void showFinding(int row);
  void showWhole();
  /// To the page of findings, at the first of the worst.
  void goToFinding();
  void showOnlyChosen();
  void hideChosen();
  void showHidden();
  void showNumbers();
  void showVerdict();
  void tell(const QString& line);
  [[nodiscard]] QString nameOfFile() const;

  BenchDocument document_;
  StockDesk desk_{document_};
  QStackedWidget* rooms_ = nullptr;  ///< the start page and the bench
  StartPage* start_ = nullptr;
  QToolBar* bar_ = nullptr;
  QTimer rest_;  ///< until the piece on the bench has stood still for a while
  View3d* view_ = nullptr;
  PartTree* parts_ = nullptr;
  PartPage* partPage_ = nullptr;
  QPushButton* mend_ = nullptr;
  JointTree* joints_ = nullptr;
  JointPage* jointPage_ = nullptr;
  QTabWidget* lists_ = nullptr;  ///< parts, joints, one of them
  DimensionTable* dimensions_ = nullptr;
  MeasuredTable* measured_ = nullptr;
  FindingTable* findings_ = nullptr;
  QTableView* findingView_ = nullptr;
  QTableView* dimensionView_ = nullptr;
  QTableView* measuredView_ = nullptr;
  HeadedPanel* findingPanel_ = nullptr;
  DrawingPage* drawing_ = nullptr;
  StockPage* stockPage_ = nullptr;
  LayoutPage* layoutPage_ = nullptr;
  QTabWidget* below_ = nullptr;  ///< findings, stock, layout
  QLabel* message_ = nullptr;
  QLabel* state_ = nullptr;
  QActionGroup* basisGroup_ = nullptr;
  QActionGroup* pointGroup_ = nullptr;
  QPointer<QDialog> help_;
  SightBar* sight_ = nullptr;
  QPointer<FaceDialog> faceDialog_;  ///< that is open beside the view
  QToolButton* verdict_ = nullptr;
  QLabel* measure_ = nullptr;  ///< between two places that are taken
  std::optional<joinery::FaceHold> dragged_;
  int dragStroke_ = 0;
  QActionGroup* unitGroup_ = nullptr;
  QAction *save_ = nullptr, *saveAs_ = nullptr, *readAgain_ = nullptr, *packet_ = nullptr;
  QList<QAction*> building_;  ///< that need a piece
  joinery::LiveFit trials_;   ///< for what is only tried
  PacketDesk packets_;
  RecoveryKeeper recovery_{document_};
  QProgressDialog* packetProgress_ = nullptr;
  QString packetFolder_;           ///< that was written last
  QAction* showPacket_ = nullptr;  ///< its folder
};

}  // namespace dryfit::viewer
