package quadrille.plan.anaesthesia;

import java.util.Collection;
import java.util.Collections;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Jaw;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.chart.Side;
import quadrille.facts.chart.Tooth;
import quadrille.plan.work.Target;

/**
 * A set of targets as bits, one a target, 64 a jaw (16 teeth of four targets), so that unions and
 * comparisons cost nothing.
 *
 * @param upper the targets of the upper jaw
 * @param lower the targets of the lower jaw
 */
public record Needs(long upper, long lower) {

  /** Nothing need be numb. */
  public static final Needs NONE = new Needs(0, 0);

  /** The bits of one side of a jaw; the other side is the complement. */
  static final long RIGHT_SIDE = 0xFFFF_FFFFL;

  private static final Target.Kind[] KINDS = Target.Kind.values();

  /** The bits of some targets. */
  public static Needs of(Collection<Target> targets) {
    long upper = 0;
    long lower = 0;
    for (Target target : targets) {
      if (target.tooth().quadrant().jaw() == Jaw.UPPER) {
        upper |= bit(target);
      } else {
        lower |= bit(target);
      }
    }
    return new Needs(upper, lower);
  }

  /** What either of the two holds. */
  public Needs and(Needs other) {
    return new Needs(upper | other.upper, lower | other.lower);
  }

  public boolean isEmpty() {
    return upper == 0 && lower == 0;
  }

  /** The targets, sorted. */
  public SortedSet<Target> targets() {
    TreeSet<Target> targets = new TreeSet<>();
    addTo(targets, Jaw.UPPER, upper);
    addTo(targets, Jaw.LOWER, lower);
    return Collections.unmodifiableSortedSet(targets);
  }

  long of(Jaw jaw) {
    return jaw == Jaw.UPPER ? upper : lower;
  }

  /** Whether anything on this side of the mouth is held. */
  boolean touches(Side side) {
    long mask = side == Side.RIGHT ? RIGHT_SIDE : ~RIGHT_SIDE;
    return ((upper | lower) & mask) != 0;
  }

  /** The bit of a target within its jaw. */
  static long bit(Target target) {
    Tooth tooth = target.tooth();
    return bit(tooth.quadrant().side(), tooth.position(), target.kind());
  }

  static long bit(Side side, int position, Target.Kind kind) {
    int toothIndex = side.ordinal() * 8 + position - 1;
    return 1L << (toothIndex * KINDS.length + kind.ordinal());
  }

  private static void addTo(SortedSet<Target> targets, Jaw jaw, long bits) {
    for (long rest = bits; rest != 0; rest &= rest - 1) {
      int index = Long.numberOfTrailingZeros(rest);
      int toothIndex = index / KINDS.length;
      Quadrant quadrant = Quadrant.of(jaw, toothIndex < 8 ? Side.RIGHT : Side.LEFT);
      targets.add(new Target(new Tooth(quadrant, toothIndex % 8 + 1), KINDS[index % KINDS.length]));
    }
  }
}
