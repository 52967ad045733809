#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "joinery/file/model_file.h"
#include "joinery/file/part_edits.h"

namespace dryfit::joinery {

// Sub-assemblies made, put into openings and dissolved. All edits either leave a model that reads,
// or change nothing.

/// Makes parts of the piece into a sub-assembly that stands where they stood: they become
/// "name.part", and the joints, tapers and hardware that are theirs alone go with them. Of a part
/// of a sub-assembly the whole of that goes. Along each axis the faces between which they lie
/// become the opening, or where they hang on none, their place as it is now; other parts that they
/// name become neighbours, dimensions of the piece become values. `values` are those of the piece,
/// mm. Errors: unknownName; badModel (a name that is taken or none; a group of which only some are
/// chosen).
[[nodiscard]] Result<void> makeAssembly(ModelFile& file, const std::vector<std::string>& parts,
                                        const std::string& name,
                                        const std::map<std::string, double>& values);

/// A sub-assembly to be put into an opening.
struct NewUse {
  std::string name;
  std::string of;                ///< which description
  std::vector<NewSpan> opening;  ///< at most one along each axis
  std::vector<std::pair<std::string, std::string>> neighbours, values;
};
/// Puts it there. Errors: unknownName; badModel (a name that is taken or none, an opening without
/// an axis that the description names); badExpression.
[[nodiscard]] Result<void> putAssembly(ModelFile& file, const NewUse& use);

/// Writes what stands at a use, with all that stands in it, as parts of the piece, and takes the
/// use out; its description goes with the last use. Parts have their own names where these are
/// free, else "drawer_2_front". Errors: unknownName; badModel, also where something names all
/// copies at once.
[[nodiscard]] Result<void> dissolve(ModelFile& file, const std::string& use);

/// The names of the sub-assemblies that the piece describes, of its uses, and of those that stand
/// in the piece as `of` this description.
[[nodiscard]] std::vector<std::string> assemblyNames(const ModelFile& file);
[[nodiscard]] std::vector<std::string> useNames(const ModelFile& file);
[[nodiscard]] std::vector<std::string> usesOf(const ModelFile& file, const std::string& of);
/// The use of the piece that a part stands in; empty for a part of the piece itself.
[[nodiscard]] std::string useOfPart(const ModelFile& file, const std::string& part);

/// A number of a sub-assembly that a use may give another value.
struct UseValue {
  std::string name;
  std::string own;    ///< what the use says; empty where it says nothing
  std::string other;  ///< what its description says
  bool each = false;  ///< each copy has its own: not to be said in one text
};
/// Errors: unknownName.
[[nodiscard]] Result<std::vector<UseValue>> valuesOf(const ModelFile& file, const std::string& use);
/// An empty text leaves the number to the description. Errors: unknownName, badExpression.
[[nodiscard]] Result<void> setUseValue(ModelFile& file, const std::string& use,
                                       const std::string& value, const std::string& text);

}  // namespace dryfit::joinery
