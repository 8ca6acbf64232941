package quadrille.facts.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;

/**
 * What a column, a code or a word of another program means: what is said, of which aspect, of which
 * site; each may be left for another column or code to say. Written as in {@code depth facial
 * distal}, {@code depth} or {@code facial distal}.
 */
public record Meaning(@Nullable What what, @Nullable Aspect aspect, @Nullable Place place) {

  /** Nothing that a chart takes. */
  static final Meaning NONE = new Meaning(What.IGNORE, null, null);

  /** What is said. */
  public enum What {
    TOOTH,
    /** The aspect, in a cell of its own. */
    ASPECT,
    /** The site of the aspect, in a cell of its own. */
    SITE,
    /** Aspect and site, in a cell of their own. */
    PLACE,
    DEPTH,
    RECESSION,
    BLEEDING,
    STATUS,
    DEPOSIT,
    FURCATION,
    MOBILITY,
    FEATURES,
    CASE,
    CHARTED,
    AGE,
    WEIGHT,
    LONGEST,
    ALERTS,
    NOTES,
    /** Nothing that a chart takes. */
    IGNORE;

    /** As a mapping writes it. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** Whether it is said of each site. */
    boolean ofSite() {
      return this == DEPTH || this == RECESSION || this == BLEEDING;
    }

    /** Whether it is said of a tooth. */
    boolean ofTooth() {
      return this == STATUS
          || this == DEPOSIT
          || this == FURCATION
          || this == MOBILITY
          || this == FEATURES;
    }
  }

  /** A site of an aspect; the last two as seen from the front. */
  public enum Place {
    DISTAL,
    MIDDLE,
    MESIAL,
    LEFT,
    RIGHT;

    String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** The site's place in a chart, 0 to 2 from distal to mesial; the patient's right is left. */
    int of(Tooth tooth) {
      boolean right = tooth.quadrant().side() == Side.RIGHT;
      return switch (this) {
        case DISTAL -> 0;
        case MIDDLE -> 1;
        case MESIAL -> 2;
        case LEFT -> right ? 0 : 2;
        case RIGHT -> right ? 2 : 0;
      };
    }
  }

  private static final List<String> WHATS = words(Stream.of(What.values()).map(What::word));
  private static final List<String> ASPECTS = words(Stream.of(Aspect.values()).map(Aspect::word));
  private static final List<String> PLACES = words(Stream.of(Place.values()).map(Place::word));

  /** What may be written. */
  static final String ALLOWED =
      String.join(", ", WHATS)
          + "; with depth, recession and bleeding also "
          + String.join(" or ", ASPECTS)
          + " and "
          + String.join(", ", PLACES);

  private static List<String> words(Stream<String> words) {
    return words.toList();
  }

  /** Reads one; empty where it says nothing, or two things at once. */
  public static Optional<Meaning> of(String text) {
    What what = null;
    Aspect aspect = null;
    Place place = null;
    for (String word : text.strip().split("\\s+", -1)) {
      if (WHATS.contains(word) && what == null) {
        what = What.values()[WHATS.indexOf(word)];
      } else if (ASPECTS.contains(word) && aspect == null) {
        aspect = Aspect.values()[ASPECTS.indexOf(word)];
      } else if (PLACES.contains(word) && place == null) {
        place = Place.values()[PLACES.indexOf(word)];
      } else {
        return Optional.empty();
      }
    }
    boolean placed = aspect != null || place != null;
    return what != null && placed && !what.ofSite()
        ? Optional.empty()
        : Optional.of(new Meaning(what, aspect, place));
  }

  /** Whether it is something of a tooth or a site. */
  boolean ofMouth() {
    return what != null && (what.ofSite() || what.ofTooth());
  }

  /** As a mapping writes it. */
  public String text() {
    List<String> words = new ArrayList<>();
    if (what != null) {
      words.add(what.word());
    }
    if (aspect != null) {
      words.add(aspect.word());
    }
    if (place != null) {
      words.add(place.word());
    }
    return words.stream().collect(Collectors.joining(" "));
  }

  /** Both together; empty where they contradict each other. */
  Optional<Meaning> and(Meaning other) {
    return (what != null && other.what != null && what != other.what)
            || (aspect != null && other.aspect != null && aspect != other.aspect)
            || (place != null && other.place != null && place != other.place)
        ? Optional.empty()
        : Optional.of(
            new Meaning(
                what == null ? other.what : what,
                aspect == null ? other.aspect : aspect,
                place == null ? other.place : place));
  }
}
