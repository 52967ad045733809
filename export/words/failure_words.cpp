#include "export/words/failure_words.h"

#include <Standard_Failure.hxx>
#include <algorithm>
#include <exception>

namespace dryfit::exporting {

std::string failureWords() {
  std::string words;
  try {
    throw;
  } catch (const std::exception& e) {
    words = e.what();
  } catch (const Standard_Failure& failure) {
    // The text is often empty; the class then says more.
    const char* text = failure.GetMessageString();
    const bool told = text != nullptr && *text != '\0';
    words = std::string("the geometry library failed: ") +
            (told ? text : failure.DynamicType()->Name());
  } catch (...) {
    words = "a failure that does not say what it is";
  }
  std::replace_if(
      words.begin(), words.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; }, ' ');
  return words;
}

}  // namespace dryfit::exporting
