package quadrille.plan.course;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Wish;

/**
 * What became of a wish.
 *
 * @param price what keeping it costs; null where it was not kept, or that was not sought
 * @param against what stands against it; null where it was kept, or that was not sought
 */
public record WishOutcome(
    Wish wish, State state, @Nullable Price price, @Nullable Against against) {

  /** What became of it, before more is known. */
  public WishOutcome(Wish wish, State state) {
    this(wish, state, null, null);
  }

  /** What became of a wish. */
  public enum State {
    KEPT,
    NOT_KEPT,
    /** Nothing there is planned. */
    NOTHING_THERE,
    /** It was for a course of another number of visits. */
    OTHER_NUMBER,
    /** The course was staged again since. */
    DROPPED
  }

  /**
   * What the best course without this wish alone would save.
   *
   * @param seconds of its cost, 0 or more; what the wish itself costs where it is not kept is no
   *     part of it
   * @param bookedMinutes may be below 0, as may the visits, where what costs less is booked longer
   * @param visits how many fewer it has
   */
  public record Price(long seconds, int bookedMinutes, int visits) {}

  /** What stands against a wish. */
  public sealed interface Against {}

  /**
   * Keeping it would cost more than it is worth.
   *
   * @param seconds by which the best course that keeps it costs more than this one, what the wish
   *     itself costs left out
   */
  public record CostsMore(long seconds) implements Against {}

  /** The practice owns no other insert that may do some of the work. */
  public record NoOtherInsert() implements Against {}

  /**
   * Hard rules, each of which would let it be kept if it alone gave way, as was tried; none where
   * that takes more than one.
   */
  public record Rules(List<HardRule> rules) implements Against {
    public Rules {
      rules = List.copyOf(rules);
    }
  }

  /** The same, with what keeping it costs. */
  public WishOutcome priced(Price known) {
    return new WishOutcome(wish, state, known, against);
  }

  /** The same, with what stands against it. */
  public WishOutcome refused(Against known) {
    return new WishOutcome(wish, state, price, known);
  }

  /**
   * The wish as work is planned and read by it: one that is kept is as good as one that must be.
   */
  public Wish asKept() {
    return wish.choosesWork() && state == State.KEPT ? wish.asMust() : wish;
  }
}
