package quadrille.diary.booking.problem;

import java.util.BitSet;

/** Minutes of a {@link TimeLine}; never changed. */
public final class MinuteSet {

  private final BitSet minutes;

  MinuteSet(BitSet minutes) {
    this.minutes = (BitSet) minutes.clone();
  }

  /** Whether a minute is in the set. */
  public boolean has(int minute) {
    return minutes.get(minute);
  }

  /** The first minute at or after this one that is in the set; -1 if there is none. */
  public int next(int minute) {
    return minutes.nextSetBit(minute);
  }

  /** The first minute at or after this one that is not in the set. */
  public int nextOutside(int minute) {
    return minutes.nextClearBit(minute);
  }

  /** How many minutes of a span are in the set; those before the first day are not. */
  public int within(int from, int to) {
    int next = minutes.nextSetBit(Math.max(0, from));
    return next < 0 || next >= to ? 0 : minutes.get(Math.max(0, from), to).cardinality();
  }

  /** The same minutes, for the taker to change. */
  public BitSet copy() {
    return (BitSet) minutes.clone();
  }
}
