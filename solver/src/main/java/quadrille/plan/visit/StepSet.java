package quadrille.plan.visit;

/**
 * A set of up to 128 small numbers (indexes of steps or of blocks), as a value that can key a map.
 *
 * @param low members 0 to 63
 * @param high members 64 to 127
 */
public record StepSet(long low, long high) {

  /** The most members that a set can hold. */
  public static final int CAPACITY = 128;

  /** The empty set. */
  public static final StepSet EMPTY = new StepSet(0, 0);

  /** This set and one more member. */
  public StepSet with(int member) {
    return member < 64
        ? new StepSet(low | 1L << member, high)
        : new StepSet(low, high | 1L << (member - 64));
  }

  public StepSet union(StepSet other) {
    return new StepSet(low | other.low, high | other.high);
  }

  public StepSet intersection(StepSet other) {
    return new StepSet(low & other.low, high & other.high);
  }

  public StepSet minus(StepSet other) {
    return new StepSet(low & ~other.low, high & ~other.high);
  }

  public boolean has(int member) {
    return member < 64 ? (low >>> member & 1) != 0 : (high >>> (member - 64) & 1) != 0;
  }

  public int size() {
    return Long.bitCount(low) + Long.bitCount(high);
  }

  public boolean isEmpty() {
    return low == 0 && high == 0;
  }

  /** The members, ascending. */
  public int[] members() {
    int[] members = new int[size()];
    int count = 0;
    for (long rest = low; rest != 0; rest &= rest - 1) {
      members[count++] = Long.numberOfTrailingZeros(rest);
    }
    for (long rest = high; rest != 0; rest &= rest - 1) {
      members[count++] = 64 + Long.numberOfTrailingZeros(rest);
    }
    return members;
  }
}
