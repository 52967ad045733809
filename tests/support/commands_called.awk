# Reads bash scripts and prints "FUNCTION WORD" for every word that stands where a command stands, outside
# comments, quoted text and here-documents ("main" outside functions). A reader of the way our own scripts
# are written, not of all that bash takes.

# First the text is made plain: quoted text becomes _ (or @ where it is a list that a command may
# follow), what $( ) holds stands between $< and >$, arithmetic and lists in ( ) are gone.
function plain(text,   out, i, c, two, depth, state, n, at, prefix, rest) {
  out = ""; depth = 0; state[0] = "code"; i = 1; n = length(text)
  while (i <= n) {
    c = substr(text, i, 1); two = substr(text, i, 2)
    if (c == "\\") { if (substr(text, i + 1, 1) == "\n") out = out " "; i += 2; continue }
    if (state[depth] == "string") {
      if (c == "\"") { out = out (prefix ? " @ " : "_"); --depth; ++i }
      else if (two == "$(" && substr(text, i, 3) != "$((") { out = out " $< "; state[++depth] = "code"; i += 2 }
      else { if (substr(text, i, 3) == "[@]" || two == "$@") prefix = 1; ++i }
      continue
    }
    rest = substr(text, i)
    if (c == "\"") { state[++depth] = "string"; prefix = 0; ++i }
    else if (c == "\047") { i += index(substr(rest, 2), "\047") + 1; out = out "_" }
    else if (c == "#" && (i == 1 || substr(text, i - 1, 1) ~ /[ \t\n]/)) i += index(rest, "\n") - 1
    else if (match(rest, /^<<\047?[A-Z]+\047?/)) {
      at = substr(rest, 3, RLENGTH - 2); gsub(/\047/, "", at)
      i += index(rest, "\n" at "\n") + length(at)
    }
    else if (two == "((" || substr(text, i, 3) == "$((") { i += index(rest, "))") + 1; out = out "[[ " }
    else if (two == "=(" || two == "~ ") { i += 2; if (two == "=(") i += closing(substr(text, i)); out = out "= " }
    else if (two == "$(" || two == "<(") { out = out " $< "; state[++depth] = "code"; i += 2 }
    else if (two == "${") { i += index(rest, "}"); out = out "_" }
    else if (two == "()") { out = out two; i += 2 }
    else if (c == ")" && depth && !open[depth]) { out = out " >$ "; --depth; ++i }
    else if (c == "(") { out = out " ; "; ++open[depth]; ++i }
    else if (c == ")") { out = out (open[depth] ? " ; " : " ;) "); if (open[depth]) --open[depth]; ++i }
    else if (c ~ /[|;&!{]/) { out = out " ; "; ++i }
    else { out = out c; ++i }
  }
  return out
}

# The place of the ) that ends a list of words.
function closing(text,   i, c, depth) {
  for (i = 1; i <= length(text); ++i) {
    c = substr(text, i, 1)
    if (c == "(") ++depth
    if (c == ")" && --depth < 0) return i
  }
  return 0
}

function report(text,   lines, words, n, m, i, j, word, inside, start, depth, kept) {
  n = split(plain(text), lines, "\n"); inside = "main"
  for (i = 1; i <= n; ++i) {
    if (match(lines[i], /^[a-z_]+\(\)/)) {
      inside = substr(lines[i], 1, RLENGTH - 2); lines[i] = substr(lines[i], RLENGTH + 1)
    }
    if (lines[i] ~ /^}/) inside = "main"
    start = 1; m = split(lines[i], words, /[ \t]+/)
    for (j = 1; j <= m; ++j) {
      word = words[j]
      if (word == "") continue
      if (word == "$<") { kept[++depth] = start; start = 1 }
      else if (word == ">$") start = kept[depth--]
      else if (words[j + 1] == ";)") continue  # a branch of a case
      else if (word ~ /^(;\)?|then|do|else|if|while|until|exec|nice|env)$/) start = 1
      else if (start && word !~ /^(-.*|[0-9]+|@|.*=.*|})$/) {
        if (word ~ /^[a-z][a-z0-9_+.-]*$/) print inside, word
        start = word == "xargs" || (start == 2 && word == "_") ? 2 : 0
      }
    }
  }
}

FNR == 1 && NR > 1 { report(text); text = "" }
{ text = text $0 "\n" }
END { report(text) }
