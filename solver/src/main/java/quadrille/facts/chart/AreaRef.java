package quadrille.facts.chart;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * Which area is meant: half a quadrant, or a part of one that was cut between two teeth. It says
 * nothing of what stands there; {@link Area} does. Its order is by quadrant, posterior first, then
 * from the midline.
 *
 * @param from the part's tooth farthest from the midline; null where the half is whole
 * @param to the part's tooth nearest to the midline, which may be the same one; null likewise
 */
public record AreaRef(Quadrant quadrant, Half half, @Nullable Tooth from, @Nullable Tooth to)
    implements Comparable<AreaRef> {

  private static final Comparator<AreaRef> ORDER =
      Comparator.comparing(AreaRef::quadrant)
          .thenComparing(AreaRef::half)
          .thenComparingInt(ref -> ref.to() == null ? 0 : ref.to().position())
          .thenComparingInt(ref -> ref.from() == null ? 0 : ref.from().position());

  public AreaRef {
    if (!valid(quadrant, half, from, to)) {
      throw new IllegalArgumentException(
          "The teeth " + from + " to " + to + " cut no part of " + quadrant + " " + half + ".");
    }
  }

  /** Whether two teeth, or none, bound a part of a half quadrant. */
  private static boolean valid(
      Quadrant quadrant, Half half, @Nullable Tooth from, @Nullable Tooth to) {
    if (from == null || to == null) {
      return from == null && to == null;
    }
    return from.quadrant() == quadrant
        && to.quadrant() == quadrant
        && Half.of(from) == half
        && Half.of(to) == half
        && from.position() >= to.position();
  }

  /** Half a quadrant, uncut. */
  public static AreaRef whole(Quadrant quadrant, Half half) {
    return new AreaRef(quadrant, half, null, null);
  }

  /**
   * The part from the foremost to the hindmost of some teeth.
   *
   * @param teeth of one half quadrant, from the midline backwards, at least one
   */
  public static AreaRef part(List<Tooth> teeth) {
    Tooth front = teeth.get(0);
    return new AreaRef(front.quadrant(), Half.of(front), teeth.get(teeth.size() - 1), front);
  }

  /**
   * The part, or nothing where the two teeth bound none.
   *
   * @param from null for the whole half
   * @param to null for the whole half
   */
  public static Optional<AreaRef> of(
      Quadrant quadrant, Half half, @Nullable Tooth from, @Nullable Tooth to) {
    return valid(quadrant, half, from, to)
        ? Optional.of(new AreaRef(quadrant, half, from, to))
        : Optional.empty();
  }

  /** The area of a {@link #name name}, or nothing where it names none. */
  public static Optional<AreaRef> named(String name, Numbering numbering) {
    String[] words = name.split(" ", -1);
    if (words.length < 2 || words.length > 3) {
      return Optional.empty();
    }
    for (Quadrant quadrant : Quadrant.values()) {
      for (Half half : Half.values()) {
        if (words[0].equals(quadrant.name()) && words[1].equals(half.word())) {
          if (words.length == 2) {
            return Optional.of(whole(quadrant, half));
          }
          String[] ends = words[2].split("-", 2);
          @Nullable Tooth from = numbering.tooth(ends[0]).orElse(null);
          @Nullable Tooth to = numbering.tooth(ends[ends.length - 1]).orElse(null);
          return from == null || to == null ? Optional.empty() : of(quadrant, half, from, to);
        }
      }
    }
    return Optional.empty();
  }

  /** The area of a name in ISO 3950 codes, which must name one. */
  public static AreaRef of(String name) {
    return named(name, Numbering.ISO3950)
        .orElseThrow(() -> new IllegalArgumentException("No area is named (" + name + ")."));
  }

  /**
   * Its name, such as {@code UR posterior}, or {@code UR posterior 18-17} where cut, the same part
   * being {@code UR posterior 1-2} in a chart numbered 1 to 32.
   */
  public String name(Numbering numbering) {
    String whole = quadrant + " " + half.word();
    if (from == null || to == null) {
      return whole;
    }
    String back = numbering.name(from);
    return whole + " " + (from.equals(to) ? back : back + "-" + numbering.name(to));
  }

  /** Whether a tooth may belong to it. */
  public boolean holds(Tooth tooth) {
    return tooth.quadrant() == quadrant
        && Half.of(tooth) == half
        && (from == null || tooth.position() <= from.position())
        && (to == null || tooth.position() >= to.position());
  }

  @Override
  public int compareTo(AreaRef other) {
    return ORDER.compare(this, other);
  }

  /** Its name in ISO 3950 codes. */
  @Override
  public String toString() {
    return name(Numbering.ISO3950);
  }
}
