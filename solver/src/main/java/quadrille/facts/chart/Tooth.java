package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;

/**
 * A position in the permanent dentition.
 *
 * @param quadrant the quadrant
 * @param position 1 (central incisor) to 8 (third molar), counted from the midline
 */
public record Tooth(Quadrant quadrant, int position) implements Comparable<Tooth> {

  /** Around the mouth, from the upper right third molar to the lower right one. */
  public static final Comparator<Tooth> AROUND = Comparator.comparingInt(Tooth::universal);

  private static final Comparator<Tooth> ORDER =
      Comparator.comparing(Tooth::quadrant).thenComparingInt(Tooth::position);
  private static final List<Tooth> ALL = all();

  public Tooth {
    if (position < 1 || position > 8) {
      throw new IllegalArgumentException("The position (" + position + ") must be 1 to 8.");
    }
  }

  /** All 32 positions, by quadrant and then from the midline backwards. */
  public static List<Tooth> values() {
    return ALL;
  }

  /** The tooth of an ISO 3950 code, such as 16. */
  public static Tooth ofIso(int code) {
    int digit = code / 10;
    if (digit < 1 || digit > 4) {
      throw new IllegalArgumentException("The ISO 3950 code (" + code + ") must be 11 to 48.");
    }
    return new Tooth(Quadrant.values()[digit - 1], code % 10);
  }

  /** The ISO 3950 code, 11 to 48. */
  public int iso() {
    return quadrant.isoDigit() * 10 + position;
  }

  /** The number 1 to 32 that starts at the upper right third molar. */
  public int universal() {
    boolean towardsMidline = quadrant == Quadrant.UR || quadrant == Quadrant.LL;
    return quadrant.ordinal() * 8 + (towardsMidline ? 9 - position : position);
  }

  /** Whether this is a premolar or a molar. */
  public boolean posterior() {
    return position >= 4;
  }

  public boolean molar() {
    return position >= 6;
  }

  /** Whether its roots part, so that a furcation can lie open: molars, upper first premolars. */
  public boolean furcated() {
    return molar() || (position == 4 && quadrant.jaw() == Jaw.UPPER);
  }

  @Override
  public int compareTo(Tooth other) {
    return ORDER.compare(this, other);
  }

  /** The ISO 3950 code as text. */
  @Override
  public String toString() {
    return Integer.toString(iso());
  }

  private static List<Tooth> all() {
    List<Tooth> teeth = new ArrayList<>();
    for (Quadrant quadrant : Quadrant.values()) {
      for (int position = 1; position <= 8; position++) {
        teeth.add(new Tooth(quadrant, position));
      }
    }
    return Collections.unmodifiableList(teeth);
  }
}
