package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.FaultWords;
import quadrille.facts.chart.Wish.Region;

/**
 * Reads a wish as people say it, such as {@code must UR posterior in visit 2}, {@code rather UR and
 * LR posterior together}, {@code must 17-14 and 47 apart}, {@code must LL first}, {@code must no
 * injection in UR anterior}, {@code rather not slim straight} or {@code must numb first}. Teeth, by
 * the chart's numbering, stand for what is worked on with them.
 */
public final class WishSentences {
  private static final List<String> STRENGTHS = List.of("must", "rather");
  private static final List<String> QUADRANTS =
      Stream.of(Quadrant.values()).map(Quadrant::name).toList();
  private static final List<String> JOINTS = List.of("and", "with", "the");
  private static final List<String> VERBS = List.of("in", "together", "apart", "first");
  private static final String FORMS =
      "a place \"in visit\" and its number, places \"together\" or \"apart\", a place \"first\","
          + " \"no injection in\" a place, \"not\" an insert, \"numb first\" or \"by hand\"";
  private static final String PLACES =
      "a quadrant (UR, UL, LL, LR), an area such as UR posterior, or teeth of one area";

  /** Each of these doubles the ways in which the work can be done. */
  private static final int MOST_CHOSEN = 3;

  /** No course has more visits. */
  static final int MOST_VISITS = 12;

  private final Numbering numbering;
  private final BiConsumer<String, String> faults;
  private boolean sound = true;

  private WishSentences(Numbering numbering, BiConsumer<String, String> faults) {
    this.numbering = numbering;
    this.faults = faults;
  }

  /**
   * Reads one wish.
   *
   * @param numbering by which it names teeth
   * @param faults is told what was found and what is allowed instead, for each fault
   * @return empty where there is a fault
   */
  public static Optional<Wish> read(
      String sentence, Numbering numbering, BiConsumer<String, String> faults) {
    return new WishSentences(numbering, faults).wish(sentence);
  }

  private void fault(String found, String allowed) {
    sound = false;
    faults.accept(found, allowed);
  }

  private Optional<Wish> wish(String sentence) {
    List<String> words =
        Arrays.stream(sentence.strip().split("[\\s,]+")).filter(word -> !word.isEmpty()).toList();
    if (words.isEmpty()) {
      fault("nothing", "\"must\" or \"rather\", then " + FORMS);
      return Optional.empty();
    }
    String strength = lower(words.get(0));
    List<String> rest = words.subList(1, words.size());
    if (!STRENGTHS.contains(strength)) {
      fault(
          FaultWords.quote(words.get(0)),
          FaultWords.either(STRENGTHS, words.get(0)) + ", as the first word");
      // Where one was meant or something else stands there, the rest is read all the same.
      rest = FaultWords.nearest(STRENGTHS, words.get(0)).isPresent() ? rest : words;
    }
    Wish.Ask ask = ask(rest);
    return sound && ask != null
        ? Optional.of(new Wish(strength.equals("must"), ask))
        : Optional.empty();
  }

  private Wish.@Nullable Ask ask(List<String> words) {
    List<String> low = words.stream().map(WishSentences::lower).toList();
    if (low.equals(List.of("numb", "first"))) {
      return new Wish.NumbFirst();
    }
    if (low.equals(List.of("by", "hand"))) {
      return new Wish.ByHand();
    }
    if (low.size() > 1 && low.get(0).equals("no") && low.get(1).startsWith("injection")) {
      int from = low.size() > 2 && low.get(2).equals("in") ? 3 : 2;
      return new Wish.NoInjection(regions(words.subList(from, words.size()), 1));
    }
    if (!low.isEmpty() && low.get(0).equals("not")) {
      int from = low.size() > 1 && low.get(1).equals("the") ? 2 : 1;
      String insert = String.join(" ", words.subList(from, words.size()));
      if (insert.isEmpty()) {
        fault("nothing after \"not\"", "the name of an insert of the practice");
      }
      return new Wish.NotInsert(insert);
    }
    int in = low.indexOf("in");
    if (in >= 0) {
      return inVisit(regions(words.subList(0, in), 1), words.subList(in + 1, words.size()));
    }
    String verb = low.isEmpty() ? "" : low.get(low.size() - 1);
    List<String> places = low.isEmpty() ? words : words.subList(0, words.size() - 1);
    return switch (verb) {
      case "together" -> new Wish.Together(regions(places, 1));
      case "apart" -> new Wish.Apart(regions(places, 2));
      case "first" -> new Wish.First(regions(places, 1));
      default -> {
        String found = words.isEmpty() ? "nothing more" : FaultWords.quote(String.join(" ", words));
        String meant =
            words.isEmpty() ? "" : FaultWords.suggestion(VERBS, words.get(words.size() - 1));
        fault(found, FORMS + meant);
        yield null;
      }
    };
  }

  private Wish.@Nullable Ask inVisit(List<Region> regions, List<String> words) {
    List<String> left = new ArrayList<>(words);
    if (!left.isEmpty() && lower(left.get(0)).equals("visit")) {
      left.remove(0);
    }
    Integer visit = number(left.isEmpty() ? null : left.remove(0), 1, "the number of a visit");
    Integer of = null;
    if (!left.isEmpty() && lower(left.get(0)).equals("of")) {
      left.remove(0);
      of =
          number(
              left.isEmpty() ? null : left.remove(0),
              visit == null ? 1 : visit,
              "the number of visits");
      if (!left.isEmpty() && lower(left.get(0)).equals("visits")) {
        left.remove(0);
      }
    }
    if (!left.isEmpty()) {
      fault(FaultWords.quote(String.join(" ", left)), "nothing, or \"of\" and a number of visits");
    }
    return visit == null ? null : new Wish.InVisit(regions, visit, of);
  }

  private @Nullable Integer number(@Nullable String word, int least, String what) {
    if (word != null && word.matches("[0-9]{1,2}")) {
      int number = Integer.parseInt(word);
      if (number >= least && number <= MOST_VISITS) {
        return number;
      }
    }
    fault(
        word == null ? "nothing more" : FaultWords.quote(word),
        what + ", " + least + " to " + MOST_VISITS);
    return null;
  }

  private List<Region> regions(List<String> words, int least) {
    List<Region> regions = new ArrayList<>();
    int before = 0;
    for (int i = 0; i < words.size(); ) {
      if (JOINTS.contains(lower(words.get(i)))) {
        i++;
        continue;
      }
      before++;
      i = region(words, i, regions);
    }
    if (before < least) {
      fault(
          before == 0 ? "no place" : "one place only",
          least == 1 ? PLACES : "two places or more, each " + PLACES);
    }
    overlap(regions)
        .ifPresent(both -> fault(both.name(numbering) + ", twice", "places that do not overlap"));
    return regions;
  }

  /** The first place that overlaps one named before it; empty where there is none. */
  static Optional<Region> overlap(List<Region> regions) {
    return regions.stream()
        .filter(
            other ->
                regions.subList(0, regions.indexOf(other)).stream()
                    .anyMatch(
                        one ->
                            Tooth.values().stream()
                                .anyMatch(tooth -> one.holds(tooth) && other.holds(tooth))))
        .findFirst();
  }

  /** Reads a place; answers where the next word stands. */
  private int region(List<String> words, int at, List<Region> regions) {
    String word = words.get(at);
    Quadrant quadrant = quadrant(word, at + 1 < words.size() ? words.get(at + 1) : "");
    if (quadrant == null) {
      teeth(word, regions);
      return at + 1;
    }
    int next = at + (QUADRANTS.contains(word.toUpperCase(Locale.ROOT)) ? 1 : 2);
    Half half = next < words.size() ? half(words.get(next)) : null;
    if (half == null) {
      regions.add(new Region(quadrant, null));
      return next;
    }
    next++;
    if (next < words.size() && words.get(next).matches("[0-9]{1,2}(-[0-9]{1,2})?")) {
      AreaRef.named(quadrant + " " + half.word() + " " + words.get(next), numbering)
          .ifPresentOrElse(
              part -> regions.add(new Region(quadrant, part)),
              () ->
                  fault(
                      FaultWords.quote(quadrant + " " + half.word()) + " with other teeth",
                      "teeth of that area, from back to front"));
      return next + 1;
    }
    regions.add(new Region(quadrant, AreaRef.whole(quadrant, half)));
    return next;
  }

  private static @Nullable Quadrant quadrant(String word, String next) {
    String both = lower(word) + " " + lower(next);
    for (Quadrant quadrant : Quadrant.values()) {
      if (word.equalsIgnoreCase(quadrant.name())
          || both.equals(lower(quadrant.jaw().name()) + " " + quadrant.side().word())) {
        return quadrant;
      }
    }
    return null;
  }

  private static @Nullable Half half(String word) {
    return Stream.of(Half.values())
        .filter(half -> half.word().equals(lower(word)))
        .findFirst()
        .orElse(null);
  }

  /** A tooth, or a stretch of one area from end to end. */
  private void teeth(String word, List<Region> regions) {
    String[] ends = word.split("-", 2);
    Tooth one = numbering.tooth(ends[0]).orElse(null);
    Tooth other = numbering.tooth(ends[ends.length - 1]).orElse(null);
    if (one == null || other == null) {
      List<String> known = new ArrayList<>(QUADRANTS);
      Stream.of(Half.values()).map(Half::word).forEach(known::add);
      fault(FaultWords.quote(word), PLACES + FaultWords.suggestion(known, word));
      return;
    }
    if (one.quadrant() != other.quadrant() || Half.of(one) != Half.of(other)) {
      fault(FaultWords.quote(word) + ", which is more than one area", "teeth of one area");
      return;
    }
    List<Tooth> sorted = Stream.of(one, other).sorted().toList();
    regions.add(new Region(one.quadrant(), AreaRef.part(sorted)));
  }

  /**
   * The first place of a wish in which nothing stands to be worked on; empty where there is none.
   */
  static Optional<Region> nowhere(Wish wish, List<ToothChart> teeth) {
    return wish.ask().regions().stream()
        .filter(
            region ->
                teeth.stream().noneMatch(tooth -> tooth.worked() && region.holds(tooth.tooth())))
        .findFirst();
  }

  /**
   * Reads wishes of a mouth.
   *
   * @param faults gets a line for each fault of each
   */
  public static List<Wish> read(List<String> sentences, Chart chart, List<String> faults) {
    List<Wish> wishes = new ArrayList<>();
    for (String sentence : sentences) {
      String of = FaultWords.quote(sentence) + ": ";
      read(
              sentence,
              chart.numbering(),
              (found, allowed) -> faults.add(of + "found " + found + "; allowed: " + allowed))
          .ifPresent(
              wish -> {
                wishes.add(wish);
                nowhere(wish, chart.teeth())
                    .ifPresent(
                        region ->
                            faults.add(
                                of
                                    + "no natural tooth and no implant stands in "
                                    + region.name(chart.numbering())));
              });
    }
    return wishes;
  }

  /** What is wrong with wishes taken together; empty where nothing is. */
  public static Optional<String> fault(List<Wish> wishes, Numbering numbering) {
    if (wishes.size() > Wish.MOST) {
      return Optional.of(wishes.size() + " wishes; at most " + Wish.MOST);
    }
    List<Wish> chosen = wishes.stream().filter(Wish::choosesWork).toList();
    if (chosen.size() > MOST_CHOSEN) {
      return Optional.of(
          chosen.size()
              + " wishes rather without an insert, by hand or numb first; at most "
              + MOST_CHOSEN
              + ", or \"must\"");
    }
    List<Wish> numbered =
        wishes.stream()
            .filter(
                wish ->
                    wish.must() && wish.ask() instanceof Wish.InVisit in && in.ofVisits() != null)
            .toList();
    for (Wish wish : numbered) {
      if (!numbered
          .get(0)
          .holdsAt(Objects.requireNonNull(((Wish.InVisit) wish.ask()).ofVisits()))) {
        return Optional.of(
            FaultWords.quote(wish.words(numbering))
                + ": another number of visits than "
                + FaultWords.quote(numbered.get(0).words(numbering)));
      }
    }
    return Optional.empty();
  }

  private static String lower(String word) {
    return word.toLowerCase(Locale.ROOT);
  }
}
