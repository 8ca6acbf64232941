package quadrille.facts.exchange;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.facts.chart.Alert;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Tooth;
import quadrille.facts.chart.ToothStatus;
import quadrille.facts.exchange.Meaning.What;

/** What has been gathered of a mouth, fact by fact, in the chart's words. */
final class Gathered {

  private static final String OPEN = "?";
  private static final String UNPROBED = "-";
  private static final int MOST_NOTES = 200;
  private static final Pattern WHOLE = Pattern.compile("([+-]?[0-9]{1,3})(?:[.,]0{1,9})?");

  /** A text that tooth lines take without quotes. */
  private static final Pattern PLAIN = Pattern.compile("[^\\s\"#?][^\"#]*");

  private static final Map<What, String> KEYS = keys();

  /** What is said of a site of an aspect. */
  private record Spot(Aspect aspect, int site, What what) {}

  private final Mapping mapping;
  private final Map<What, String> facts = new LinkedHashMap<>();
  private final Map<Tooth, Map<Object, String>> teeth = new TreeMap<>(Tooth.AROUND);
  private final List<String> notes = new ArrayList<>();
  private int more;

  Gathered(Mapping mapping) {
    this.mapping = mapping;
  }

  private static Map<What, String> keys() {
    Map<What, String> keys = new LinkedHashMap<>();
    keys.put(What.CASE, "case");
    keys.put(What.CHARTED, "charted");
    keys.put(What.AGE, "age");
    keys.put(What.WEIGHT, "weight");
    keys.put(What.LONGEST, "longest");
    keys.put(What.ALERTS, "alerts");
    keys.put(What.NOTES, "notes");
    return keys;
  }

  /** Says what was left out; of very many, how many more there are. */
  void note(String note) {
    if (notes.contains(note)) {
      return;
    }
    if (notes.size() < MOST_NOTES) {
      notes.add(note);
    } else {
      more++;
    }
  }

  private void unknown(String where, What what, String value, String allowed) {
    note(
        where
            + ": "
            + what.word()
            + " "
            + FaultWords.quote(value)
            + " was left open; a chart takes "
            + allowed
            + ".");
  }

  /** Something about the patient or the chart. */
  void fact(What what, String value, String where) {
    if (value.isBlank()) {
      return;
    }
    String said =
        what == What.ALERTS
            ? words(what, value, Stream.of(Alert.values()).map(Alert::word).toList(), where)
            : plain(value);
    @Nullable String before = facts.putIfAbsent(what, said);
    if (before != null && !before.equals(said)) {
      note(
          where
              + ": another "
              + what.word()
              + " than before was passed over; one mouth and one day are read.");
    }
  }

  private static String plain(String value) {
    return value.replaceAll("\\p{Cntrl}+", " ").strip();
  }

  private String words(What what, String value, List<String> allowed, String where) {
    List<String> known = new ArrayList<>();
    for (String one : mapping.word(what, value.strip()).split("[\\s,]+")) {
      String word = mapping.word(what, one);
      if (allowed.contains(word) || (what == What.ALERTS && word.equals("none"))) {
        known.add(word);
      } else if (!word.isBlank() && !word.equals("none")) {
        unknown(where, what, one, FaultWords.either(allowed));
        if (what == What.ALERTS) {
          return OPEN;
        }
        known.add(OPEN);
      }
    }
    return String.join(" ", known);
  }

  /** Notes that a tooth is there. */
  void tooth(Tooth tooth) {
    teeth.computeIfAbsent(tooth, one -> new LinkedHashMap<>());
  }

  /** Something about a tooth. */
  void fact(Tooth tooth, What what, String cell, String where) {
    tooth(tooth);
    if (cell.isBlank()) {
      return;
    }
    String word = mapping.word(what, cell.strip());
    switch (what) {
      case STATUS ->
          one(tooth, what, word, Stream.of(ToothStatus.values()).map(ToothStatus::word), where);
      case DEPOSIT -> one(tooth, what, word, Stream.of(Deposit.values()).map(Deposit::word), where);
      case FURCATION, MOBILITY ->
          whole(word, 0, 3)
              .ifPresentOrElse(
                  grade -> said(tooth, what, grade.toString(), where),
                  () -> {
                    unknown(where, what, cell, "0 to 3");
                    said(tooth, what, OPEN, where);
                  });
      default ->
          said(
              tooth,
              what,
              words(what, cell, Stream.of(Feature.values()).map(Feature::word).toList(), where),
              where);
    }
  }

  private void one(Tooth tooth, What what, String word, Stream<String> words, String where) {
    List<String> allowed = words.toList();
    if (allowed.contains(word)) {
      said(tooth, what, word, where);
    } else {
      unknown(where, what, word, FaultWords.either(allowed));
      said(tooth, what, OPEN, where);
    }
  }

  /** Something about a site. */
  void site(Tooth tooth, Aspect aspect, int site, What what, String cell, String where) {
    tooth(tooth);
    String bare = cell.strip();
    String word = mapping.word(what, bare);
    Spot spot = new Spot(aspect, site, what);
    if (what == What.BLEEDING) {
      String truth =
          switch (word.toLowerCase(Locale.ROOT)) {
            case "1", "x", "true" -> "b";
            case "", "0", "false" -> "";
            default -> OPEN;
          };
      if (truth.equals(OPEN)) {
        unknown(where, what, bare, "true, 1 or x, and false, 0 or a blank cell");
      }
      said(tooth, spot, truth, where);
    } else if (what == What.DEPTH && word.equals(UNPROBED)) {
      said(tooth, spot, UNPROBED, where);
    } else if (!word.isEmpty()) {
      int least = what == What.DEPTH ? 0 : -10;
      whole(word, least, 20)
          .ifPresentOrElse(
              mm -> said(tooth, spot, mm.toString(), where),
              () -> {
                unknown(where, what, bare, "whole mm from " + least + " to 20");
                said(tooth, spot, OPEN, where);
              });
    }
  }

  private static Optional<Integer> whole(String word, int least, int most) {
    var found = WHOLE.matcher(word);
    return found.matches()
        ? Optional.of(Integer.valueOf(found.group(1)))
            .filter(value -> value >= least && value <= most)
        : Optional.empty();
  }

  private void said(Tooth tooth, Object what, String value, String where) {
    Map<Object, String> known = teeth.computeIfAbsent(tooth, one -> new LinkedHashMap<>());
    @Nullable String before = known.putIfAbsent(what, value);
    if (before != null && !before.equals(value) && !before.equals(OPEN)) {
      known.put(what, OPEN);
      note(
          where
              + ": said a second time of tooth "
              + tooth
              + " (ISO 3950), and otherwise; left open.");
    }
  }

  /** Tooth lines, in a numbering. */
  ForeignChart chart(Numbering numbering) {
    List<String> lines = new ArrayList<>();
    lines.add("case " + (facts.containsKey(What.CASE) ? quoted(What.CASE) : OPEN));
    lines.add("numbering " + numbering.word());
    KEYS.forEach(
        (what, key) -> {
          if (what != What.CASE && facts.containsKey(what)) {
            lines.add(key + " " + (what == What.NOTES ? quoted(what) : facts.get(what)));
          }
        });
    teeth.forEach((tooth, known) -> lines.add(line(numbering.name(tooth), known)));
    List<String> told = new ArrayList<>(notes);
    if (more > 0) {
      told.add(more + " more of that kind.");
    }
    for (What what : List.of(What.RECESSION, What.BLEEDING)) {
      if (teeth.values().stream()
          .flatMap(known -> known.keySet().stream())
          .noneMatch(key -> key instanceof Spot spot && spot.what() == what)) {
        told.add("Nothing says " + what.word() + "; the chart has none.");
      }
    }
    if (!facts.containsKey(What.ALERTS)) {
      told.add("Nothing says the medical history; the chart has it as not taken.");
    }
    String without =
        Tooth.values().stream()
            .filter(tooth -> !teeth.containsKey(tooth))
            .map(numbering::name)
            .collect(Collectors.joining(" "));
    if (!without.isEmpty()) {
      told.add("Nothing is said of " + without + "; a chart takes them as missing.");
    }
    return new ForeignChart(String.join("\n", lines) + "\n", told);
  }

  private String quoted(What what) {
    String text = facts.getOrDefault(what, "");
    return PLAIN.matcher(text).matches()
        ? text
        : '"' + text.replace("\\", "\\\\").replace("\"", "\\\"") + '"';
  }

  private static String line(String name, Map<Object, String> known) {
    List<String> words = new ArrayList<>(List.of(name));
    String status = known.getOrDefault(What.STATUS, ToothStatus.NATURAL.word());
    boolean worked =
        !status.equals(ToothStatus.MISSING.word())
            && !status.equals(ToothStatus.PLANNED_EXTRACTION.word());
    if (!status.equals(ToothStatus.NATURAL.word())) {
      words.add(status);
    }
    String deposit = known.getOrDefault(What.DEPOSIT, worked ? OPEN : "");
    words.add(deposit);
    grade(words, "f", known.get(What.FURCATION));
    grade(words, "m", known.get(What.MOBILITY));
    words.add(known.getOrDefault(What.FEATURES, ""));
    String front = words.stream().filter(word -> !word.isEmpty()).collect(Collectors.joining(" "));
    boolean charted = known.keySet().stream().anyMatch(Spot.class::isInstance);
    return worked || charted
        ? front
            + Arrays.stream(Aspect.values())
                .map(aspect -> " | " + sites(aspect, known))
                .collect(Collectors.joining())
        : front;
  }

  private static void grade(List<String> words, String letter, @Nullable String grade) {
    if (grade != null && !grade.equals("0")) {
      words.add(grade.equals(OPEN) ? OPEN : letter + grade);
    }
  }

  private static String sites(Aspect aspect, Map<Object, String> known) {
    return IntStream.range(0, 3)
        .mapToObj(
            site -> {
              String depth = known.getOrDefault(new Spot(aspect, site, What.DEPTH), OPEN);
              String bled = known.getOrDefault(new Spot(aspect, site, What.BLEEDING), "");
              String rec = known.getOrDefault(new Spot(aspect, site, What.RECESSION), "0");
              boolean open = (depth + bled + rec).contains(OPEN);
              return open ? OPEN : depth + bled + (rec.equals("0") ? "" : "/" + rec);
            })
        .collect(Collectors.joining(" "));
  }
}
