package quadrille.facts.exchange;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.CsvTable;
import quadrille.document.Faults;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.exchange.Meaning.Place;
import quadrille.facts.exchange.Meaning.What;

/**
 * What a table's columns may mean, by the plain words in their names. What a name leaves open, such
 * as a lone number or an abbreviation, is left to a person.
 */
final class MappingProposal {

  /** Of more different words in a column none is listed: it is no list of words. */
  private static final int MOST_WORDS = 40;

  private static final Map<String, Meaning> WORDS = dictionary();

  /** Beside tooth these say no more; any other word makes a column one about the tooth. */
  private static final Set<String> NAMING = Set.of("", "no", "number", "nr", "code", "id", "iso");

  /** Words of which each is one of a few, and so listed. */
  private static final List<What> LISTED =
      List.of(What.ASPECT, What.SITE, What.PLACE, What.STATUS, What.DEPOSIT, What.BLEEDING);

  private MappingProposal() {}

  private static Map<String, Meaning> dictionary() {
    Map<String, Meaning> words = new LinkedHashMap<>();
    put(words, What.TOOTH, "tooth", "teeth");
    put(words, What.ASPECT, "aspect");
    put(words, What.SITE, "site");
    put(words, What.DEPTH, "depth", "depths", "probing", "pocket", "ppd");
    put(words, What.RECESSION, "recession");
    put(words, What.BLEEDING, "bleeding", "bop", "bleeds");
    put(words, What.STATUS, "status");
    put(words, What.DEPOSIT, "deposit", "calculus");
    put(words, What.FURCATION, "furcation");
    put(words, What.MOBILITY, "mobility");
    put(words, What.CASE, "case");
    put(words, What.CHARTED, "charted");
    put(words, What.AGE, "age");
    put(words, What.WEIGHT, "weight");
    Stream.of("facial", "buccal", "labial", "vestibular")
        .forEach(word -> words.put(word, new Meaning(null, Aspect.FACIAL, null)));
    Stream.of("lingual", "palatal", "oral")
        .forEach(word -> words.put(word, new Meaning(null, Aspect.LINGUAL, null)));
    for (Place place : List.of(Place.DISTAL, Place.MIDDLE, Place.MESIAL)) {
      words.put(place.word(), new Meaning(null, null, place));
    }
    Stream.of("mid", "central", "centre", "center")
        .forEach(word -> words.put(word, new Meaning(null, null, Place.MIDDLE)));
    return words;
  }

  private static void put(Map<String, Meaning> words, What what, String... names) {
    Stream.of(names).forEach(name -> words.put(name, new Meaning(what, null, null)));
  }

  static Mapping of(String source, String text) throws InvalidDocumentException {
    Faults faults = new Faults();
    CsvTable table = CsvTable.any(source, text, faults);
    faults.check();
    Map<String, @Nullable Meaning> columns = new LinkedHashMap<>();
    Map<What, Map<String, @Nullable String>> words = new LinkedHashMap<>();
    List<String> teeth = new ArrayList<>();
    for (String column : table.rows().get(0).cells().keySet()) {
      @Nullable Meaning meaning = meaning(column);
      columns.put(column, meaning);
      List<String> cells =
          table.rows().stream()
              .map(row -> row.cell(column).text())
              .filter(cell -> !cell.isBlank())
              .distinct()
              .toList();
      if (meaning == null || meaning.what() == null) {
        continue;
      }
      if (meaning.what() == What.TOOTH) {
        teeth.addAll(cells);
      } else if (LISTED.contains(meaning.what()) && cells.size() <= MOST_WORDS) {
        Map<String, @Nullable String> known =
            words.computeIfAbsent(meaning.what(), what -> new LinkedHashMap<>());
        cells.forEach(cell -> known.putIfAbsent(cell, word(meaning.what(), cell)));
      }
    }
    // By all of them: with two columns of teeth, each numbered its own way, by none.
    List<Numbering> by = TableChart.numberings(teeth);
    @Nullable Numbering numbering = by.size() == 1 ? by.get(0) : null;
    return new Mapping(false, numbering, columns, words, Map.of(), Map.of());
  }

  /** What all words of a name that are known mean together; null where none is, or they differ. */
  static @Nullable Meaning meaning(String name) {
    Meaning whole = new Meaning(null, null, null);
    for (String word : words(name)) {
      Meaning known = WORDS.get(word);
      if (known != null) {
        Meaning both = whole.and(known).orElse(null);
        if (both == null) {
          return null;
        }
        whole = both;
      }
    }
    boolean aboutTooth =
        whole.what() == What.TOOTH
            && words(name).stream()
                .anyMatch(word -> !NAMING.contains(word) && !WORDS.containsKey(word));
    // A weight without a unit may be in pounds.
    boolean noUnit = whole.what() == What.WEIGHT && !words(name).contains("kg");
    return whole.what() == null || aboutTooth || noUnit
        ? null
        : Meaning.of(whole.text()).orElse(null);
  }

  private static Set<String> words(String name) {
    String apart = name.replaceAll("([a-z])([A-Z])", "$1 $2").toLowerCase(Locale.ROOT);
    Set<String> words = new LinkedHashSet<>();
    for (String word : apart.split("[^a-z]+")) {
      words.add(word);
      // As in midbuccal, distolingual or mesio-distal.
      if (word.startsWith("mid") && word.length() > 3) {
        words.addAll(List.of("mid", word.substring(3)));
      }
      for (String end : List.of("disto", "mesio")) {
        if (word.startsWith(end)) {
          words.add(end.equals("disto") ? "distal" : "mesial");
          words.add(word.substring(end.length()));
        }
      }
    }
    return words;
  }

  private static @Nullable String word(What what, String cell) {
    String lower = cell.toLowerCase(Locale.ROOT);
    if (what == What.ASPECT || what == What.SITE || what == What.PLACE) {
      Meaning whole = new Meaning(null, null, null);
      List<String> said = new ArrayList<>(words(cell));
      for (String word : said) {
        Meaning known = WORDS.get(word);
        if (known != null && known.what() == null) {
          Meaning both = whole.and(known).orElse(null);
          if (both == null) {
            return null;
          }
          whole = both;
        }
      }
      return whole.text().isEmpty() ? null : whole.text();
    }
    List<String> chart =
        switch (what) {
          case STATUS -> Stream.of(ToothStatus.values()).map(ToothStatus::word).toList();
          case DEPOSIT -> Stream.of(Deposit.values()).map(Deposit::word).toList();
          default -> List.of("true", "false", "1", "0", "x");
        };
    return chart.contains(lower) ? lower : null;
  }
}
