package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;
import quadrille.document.Node;
import quadrille.document.Place;

/**
 * Puts tooth lines together as the JSON shape has them, so that one set of rules serves both. See
 * {@link ChartReader#lines} and {@code docs/tooth-lines.md}.
 */
final class ToothLines {

  /** Words that begin a line of facts, and the keys of the JSON shape that they stand for. */
  static final Map<String, String> KEYS = keys();

  private static final List<String> TOP = List.of("case", "charted", "numbering", "wishes");

  /** What is left open by whoever began the chart. */
  static final String OPEN = "?";

  private static final String OPEN_FOUND = "\"?\", not filled in yet";
  private static final String OPEN_SITES = "\"? ? ?\", not filled in yet";

  /** What is said to be found where nothing has been filled in yet. */
  static final List<String> OPEN_FAULTS = List.of(OPEN_FOUND, OPEN_SITES);

  private static final String SITE_ALLOWED =
      "- or 0 to 20 (mm), then b if it bled, then / and the recession if there is one, as in 6b/1";

  private static final Pattern WORD = Pattern.compile("\\||[^\\s|]+");
  private static final Pattern SITE = Pattern.compile("(-|[0-9]{1,3})(b?)(?:/(-?[0-9]{1,3}))?");
  private static final Pattern SITE_MEANT =
      Pattern.compile("(-|[0-9]{1,2})\\s*([bB*!]?)(?:/(-?[0-9]{1,2}))?([bB*!]?)");
  private static final Pattern GRADE = Pattern.compile("([fm])([0-9]{1,3})");
  private static final Pattern DIGITS = Pattern.compile("[0-9]{3}");
  private static final Pattern TOOTH = Pattern.compile("[0-9]{1,2}");

  private static final List<String> STATUSES =
      Stream.of(ToothStatus.values()).map(ToothStatus::word).toList();
  private static final List<String> DEPOSITS =
      Stream.of(Deposit.values()).map(Deposit::word).toList();
  private static final List<String> FEATURES =
      Stream.of(Feature.values()).map(Feature::word).toList();
  private static final List<String> WORDS =
      Stream.of(DEPOSITS, STATUSES, FEATURES).flatMap(List::stream).toList();

  private static final List<String> ALLOWED =
      Stream.concat(WORDS.stream(), Stream.of("f0 to f3", "m0 to m3")).toList();

  /** A word and the column in which it starts, counted from 1. */
  private record Word(String text, int line, int column) {}

  private final String source;
  private final Faults faults;
  private final Map<String, Node> top = new LinkedHashMap<>();
  private final Map<String, Node> patient = new LinkedHashMap<>();
  private final List<Node> teeth = new ArrayList<>();

  private ToothLines(String source, Faults faults) {
    this.source = source;
    this.faults = faults;
  }

  /** What takes the rest of its line, and what stands there. */
  private static final Map<String, String> RESTS =
      Map.of(
          "case",
          "your own reference",
          "wishes",
          "wishes with semicolons between, or no such line",
          "notes",
          "free text, or no such line");

  private static Map<String, String> keys() {
    Map<String, String> keys = new LinkedHashMap<>();
    keys.put("case", "case");
    keys.put("charted", "charted");
    keys.put("numbering", "numbering");
    keys.put("age", "ageYears");
    keys.put("weight", "weightKg");
    keys.put("longest", "longestVisitMinutes");
    keys.put("alerts", "alerts");
    keys.put("start-with", "startWith");
    keys.put("wishes-numbness", "wishesNumbness");
    keys.put("wishes", "wishes");
    keys.put("notes", "notes");
    return keys;
  }

  /** Whether a text that is no JSON begins as tooth lines do, and as no table does. */
  static boolean looksLike(String text) {
    String first =
        text.lines()
            .map(String::strip)
            .filter(line -> !line.isEmpty() && !line.startsWith("#"))
            .findFirst()
            .orElse("");
    String word = first.split("[\\s|]", 2)[0];
    return TOOTH.matcher(word).matches()
        || FaultWords.nearest(List.copyOf(KEYS.keySet()), word).isPresent();
  }

  static Node read(String source, String text, Faults faults) throws InvalidDocumentException {
    return new ToothLines(source, faults)
        .root(text.startsWith("\uFEFF") ? text.substring(1) : text);
  }

  private Node root(String text) throws InvalidDocumentException {
    Place start = new Place(source, 1, 1, "");
    if (text.isBlank()) {
      faults.add(start, "an empty document", "tooth lines");
      faults.check();
    }
    top.put("schema", Node.ofText(faults, start, ChartReader.SCHEMA));
    int number = 0;
    for (String line : (Iterable<String>) text.lines()::iterator) {
      line(line, ++number);
    }
    for (String required : List.of("case", "numbering")) {
      if (!top.containsKey(required)) {
        String as = required.equals("case") ? "case K-1042" : "numbering iso3950";
        faults.add(start, "no line \"" + required + " …\"", "one, as \"" + as + "\"");
        top.put(required, Node.standIn(faults, start));
      }
    }
    top.put("patient", Node.ofMembers(faults, start, patient));
    top.put("teeth", Node.ofElements(faults, start, teeth));
    return Node.ofMembers(faults, start, top);
  }

  private void line(String line, int number) {
    List<Word> words = words(line, number);
    if (words.isEmpty()) {
      return;
    }
    Word first = words.get(0);
    if (Character.isDigit(first.text().charAt(0)) || first.text().equals("|")) {
      tooth(words);
    } else if (RESTS.containsKey(first.text())) {
      restOfLine(first, line);
    } else {
      facts(words);
    }
  }

  /** The words of a line up to its comment; a bar is a word. */
  private static List<Word> words(String line, int number) {
    int comment = line.indexOf('#');
    List<Word> words = new ArrayList<>();
    Matcher word = WORD.matcher(comment < 0 ? line : line.substring(0, comment));
    while (word.find()) {
      words.add(new Word(word.group(), number, word.start() + 1));
    }
    return words;
  }

  private Place at(Word word, String... terms) {
    return new Place(
        source,
        word.line(),
        word.column(),
        "column " + word.column() + (terms.length == 0 ? "" : said(List.of(terms))));
  }

  private static String said(List<String> terms) {
    return " (" + String.join(", ", terms) + ")";
  }

  // ---- what concerns the chart and the patient

  /** The rest of the line; in quotes where it holds what would mean something else. */
  private void restOfLine(Word key, String line) {
    String rest = line.substring(key.column() - 1 + key.text().length()).strip();
    if (rest.startsWith("\"")) {
      Matcher quoted = Pattern.compile("\"((?:[^\"\\\\]|\\\\.)*)\"\\s*(#.*)?").matcher(rest);
      if (!quoted.matches()) {
        faults.add(at(key, key.text()), FaultWords.quote(rest), "a quote at its end too");
        put(key, Node.standIn(faults, at(key)));
        return;
      }
      put(
          key,
          Node.ofText(faults, at(key, key.text()), quoted.group(1).replaceAll("\\\\(.)", "$1")));
      return;
    }
    String bare = rest.contains("#") ? rest.substring(0, rest.indexOf('#')).strip() : rest;
    if (bare.equals(OPEN)) {
      faults.add(at(key, key.text()), OPEN_FOUND, RESTS.getOrDefault(key.text(), "a text"));
      put(key, standIn(key));
    } else {
      put(key, Node.ofText(faults, at(key, key.text()), bare));
    }
  }

  /** Keys, each with its value; alerts take the rest of their line. */
  private void facts(List<Word> words) {
    List<String> keys = List.copyOf(KEYS.keySet());
    for (int i = 0; i < words.size(); ) {
      Word key = words.get(i++);
      if (!KEYS.containsKey(key.text())) {
        boolean first = i == 1;
        String allowed = FaultWords.either(keys) + (first ? ", or a tooth" : "");
        faults.add(
            at(key),
            FaultWords.quote(key.text()),
            allowed + FaultWords.suggestion(keys, key.text()));
        // What follows belongs to it, as far as it is no key itself.
        Optional<String> meant = FaultWords.nearest(keys, key.text());
        meant.ifPresent(name -> put(new Word(name, key.line(), key.column()), standIn(key)));
        while (i < words.size() && !KEYS.containsKey(words.get(i).text())) {
          i++;
        }
      } else if (key.text().equals("alerts")) {
        alerts(key, words.subList(i, words.size()));
        return;
      } else if (i == words.size() || KEYS.containsKey(words.get(i).text())) {
        faults.add(at(key), "nothing after \"" + key.text() + "\"", "a value, or no such key");
        put(key, standIn(key));
      } else {
        Word value = words.get(i++);
        put(key, open(value, at(value, key.text()), "a value, or the key left out"));
      }
    }
  }

  private void alerts(Word key, List<Word> words) {
    Place place = at(key, "alerts");
    List<Node> alerts = new ArrayList<>();
    boolean none = false;
    for (Word word : words) {
      for (String one : word.text().split(",")) {
        if (one.equals(OPEN)) {
          faults.add(
              at(word, "alerts"), OPEN_FOUND, "none, alerts, or no such line if nobody knows");
        } else if (one.equals("none")) {
          none = true;
        } else if (!one.isEmpty()) {
          alerts.add(Node.ofText(faults, at(word, "alerts"), one));
        }
      }
    }
    if (words.isEmpty()) {
      faults.add(place, "nothing after \"alerts\"", "none, or the alerts with spaces between");
    } else if (none && !alerts.isEmpty()) {
      faults.add(place, "none beside other alerts", "none, or the alerts with spaces between");
    }
    put(key, Node.ofElements(faults, place, alerts));
  }

  private Node open(Word value, Place place, String allowed) {
    if (value.text().equals(OPEN)) {
      faults.add(place, OPEN_FOUND, allowed);
      return Node.standIn(faults, place);
    }
    return switch (value.text()) {
      case "yes" -> Node.ofCell(faults, place, "true");
      case "no" -> Node.ofCell(faults, place, "false");
      default -> Node.ofCell(faults, place, value.text());
    };
  }

  private Node standIn(Word word) {
    return Node.standIn(faults, at(word));
  }

  private void put(Word key, Node value) {
    Map<String, Node> facts = TOP.contains(key.text()) ? top : patient;
    @Nullable Node first = facts.putIfAbsent(KEYS.getOrDefault(key.text(), ""), value);
    if (first != null) {
      faults.add(
          at(key),
          "\"" + key.text() + "\" a second time (first on line " + first.place().line() + ")",
          "each key once");
    }
  }

  // ---- teeth

  private void tooth(List<Word> words) {
    Word code = words.get(0);
    if (code.text().equals("|")) {
      faults.add(at(code), "a line without a tooth", "the tooth in front of its first |");
      return;
    }
    String name = "tooth " + code.text();
    List<List<Word>> groups = groups(words);
    Map<String, Node> members = new LinkedHashMap<>();
    members.put("tooth", Node.ofText(faults, at(code), code.text()));
    words(groups.get(0).subList(1, groups.get(0).size()), name, members);
    List<String> aspects = List.of("facial", "lingual");
    for (int i = 0; i < 2 && i + 1 < groups.size(); i++) {
      List<Word> sites = groups.get(i + 1);
      String aspect = aspects.get(i);
      boolean mayBeEmpty =
          members.containsKey("status") && members.get("status").is("planned-extraction");
      if (!sites.isEmpty() || !mayBeEmpty) {
        members.put(aspect, aspect(sites, code, name, aspect));
      }
    }
    if (groups.size() > 3) {
      faults.add(
          at(groups.get(3).isEmpty() ? code : groups.get(3).get(0), name),
          (groups.size() - 1) + " groups of sites",
          "two: | facial | lingual");
    }
    teeth.add(Node.ofMembers(faults, at(code), members));
  }

  /** What stands between the bars. */
  private static List<List<Word>> groups(List<Word> words) {
    List<List<Word>> groups = new ArrayList<>();
    groups.add(new ArrayList<>());
    for (Word word : words) {
      if (word.text().equals("|")) {
        groups.add(new ArrayList<>());
      } else {
        groups.get(groups.size() - 1).add(word);
      }
    }
    return groups;
  }

  private void words(List<Word> words, String tooth, Map<String, Node> members) {
    List<Node> features = new ArrayList<>();
    for (Word word : words) {
      Place named = at(word, tooth);
      // The reader names the tooth of what it finds at fault.
      Place place = at(word);
      Matcher grade = GRADE.matcher(word.text());
      if (word.text().equals(OPEN)) {
        faults.add(named, OPEN_FOUND, FaultWords.either(DEPOSITS));
        members.putIfAbsent("deposit", Node.standIn(faults, place));
      } else if (STATUSES.contains(word.text())) {
        once("status", word, named, members, Node.ofText(faults, place, word.text()));
      } else if (DEPOSITS.contains(word.text())) {
        once("deposit", word, named, members, Node.ofText(faults, place, word.text()));
      } else if (FEATURES.contains(word.text())) {
        features.add(Node.ofText(faults, place, word.text()));
      } else if (grade.matches()) {
        String key = grade.group(1).equals("f") ? "furcation" : "mobility";
        once(key, word, named, members, Node.ofCell(faults, place, grade.group(2)));
      } else if (SITE.matcher(word.text()).matches()) {
        faults.add(named, FaultWords.quote(word.text()), "a | in front of the first site");
        Stream.of("deposit", "facial", "lingual")
            .forEach(key -> members.putIfAbsent(key, Node.standIn(faults, place)));
        break;
      } else {
        unknown(word, named, members);
      }
    }
    if (!features.isEmpty()) {
      members.put("features", Node.ofElements(faults, at(words.get(0)), features));
    }
  }

  private void once(String key, Word word, Place place, Map<String, Node> members, Node value) {
    if (members.putIfAbsent(key, value) != null) {
      faults.add(place, FaultWords.quote(word.text()) + ", a second " + key, "one at most");
    }
  }

  private void unknown(Word word, Place place, Map<String, Node> members) {
    String meant = FaultWords.nearest(WORDS, word.text()).orElse("");
    faults.add(place, FaultWords.quote(word.text()), FaultWords.either(ALLOWED, word.text()));
    // What was probably meant is not missed as well.
    if (DEPOSITS.contains(meant)) {
      members.putIfAbsent("deposit", Node.standIn(faults, place));
    } else if (STATUSES.contains(meant)) {
      Stream.of("status", "deposit", "facial", "lingual")
          .forEach(key -> members.putIfAbsent(key, Node.standIn(faults, place)));
    }
  }

  private Node aspect(List<Word> sites, Word code, String tooth, String aspect) {
    Word first = sites.isEmpty() ? code : sites.get(0);
    Place place = at(first);
    if (sites.size() != 3) {
      String found = sites.stream().map(Word::text).collect(Collectors.joining(" "));
      boolean together = sites.size() == 1 && DIGITS.matcher(found).matches();
      faults.add(
          at(first, tooth, aspect),
          sites.size()
              + (sites.size() == 1 ? " site" : " sites")
              + (sites.isEmpty() ? "" : ", " + FaultWords.quote(found)),
          "3: distal, middle, mesial, with spaces between"
              + (together ? ". Did you mean \"" + String.join(" ", found.split("")) + "\"?" : ""));
      return Node.standIn(faults, place);
    }
    if (sites.stream().allMatch(site -> site.text().equals(OPEN))) {
      faults.add(at(first, tooth, aspect), OPEN_SITES, "three sites");
      return Node.standIn(faults, place);
    }
    Map<String, List<Node>> measures = new LinkedHashMap<>();
    for (int i = 0; i < 3; i++) {
      site(sites.get(i), at(sites.get(i), tooth, aspect, ChartReader.SITES.get(i)))
          .forEach(
              (measure, node) ->
                  measures.computeIfAbsent(measure, key -> new ArrayList<>()).add(node));
    }
    Map<String, Node> members = new LinkedHashMap<>();
    measures.forEach(
        (measure, nodes) -> members.put(measure, Node.ofElements(faults, place, nodes)));
    return Node.ofMembers(faults, place, members);
  }

  /** Depth, recession and bleeding of one site, in this order. */
  private Map<String, Node> site(Word word, Place named) {
    Matcher site = SITE.matcher(word.text());
    Place place = at(word);
    Map<String, Node> measures = new LinkedHashMap<>();
    if (!site.matches()) {
      faults.add(
          named,
          word.text().equals(OPEN) ? OPEN_FOUND : FaultWords.quote(word.text()),
          SITE_ALLOWED + meant(word.text()));
      Stream.of("depthMm", "recessionMm", "bleeding")
          .forEach(measure -> measures.put(measure, Node.standIn(faults, place)));
      return measures;
    }
    boolean deep = !site.group(1).equals("-") && Integer.parseInt(site.group(1)) > 20;
    if (deep) {
      faults.add(named, "a depth of " + site.group(1), "0 to 20 (mm), or - where not probed");
    }
    measures.put(
        "depthMm",
        deep
            ? Node.standIn(faults, place)
            : Node.ofCell(faults, place, site.group(1).equals("-") ? "" : site.group(1)));
    String recession = site.group(3) == null ? "0" : site.group(3);
    measures.put("recessionMm", Node.ofCell(faults, place, recession));
    measures.put(
        "bleeding", Node.ofCell(faults, place, site.group(2).isEmpty() ? "false" : "true"));
    return measures;
  }

  /** The site that was probably meant by one written another way. */
  private static String meant(String text) {
    if (text.matches("-?[0-9]+[.,][0-9]+b?")) {
      return "; whole mm, with no decimals";
    }
    Matcher near = SITE_MEANT.matcher(text);
    if (!near.matches()) {
      return "";
    }
    boolean bled = !near.group(2).isEmpty() || !near.group(4).isEmpty();
    String recession = near.group(3) == null ? "" : "/" + near.group(3);
    return ". Did you mean \"" + near.group(1) + (bled ? "b" : "") + recession + "\"?";
  }
}
