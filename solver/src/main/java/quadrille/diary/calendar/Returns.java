package quadrille.diary.calendar;

import java.io.Serial;

/**
 * How far the rules of calendars may still be followed in one reading of them all. It is more than
 * a practice's calendars ever need, and is found to be used up within seconds.
 */
public final class Returns {

  /** Assumption: far more than a practice's; fifty rules, each daily for a hundred years. */
  private static final long MOST = 2_000_000;

  /** An occurrence within the span is placed, sorted and kept; one before it is passed over. */
  private static final int FOUND = 8;

  private long left = MOST;

  /** That nothing is left. */
  static final class TooManyException extends Exception {
    @Serial private static final long serialVersionUID = 1L;
  }

  /** Takes what is passed over. */
  void pass(long number) throws TooManyException {
    left -= Math.min(number, left + 1);
    if (left < 0) {
      throw new TooManyException();
    }
  }

  /** Takes what is found. */
  void find(long number) throws TooManyException {
    pass(FOUND * Math.min(number, MOST));
  }
}
