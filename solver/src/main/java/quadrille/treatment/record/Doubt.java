package quadrille.treatment.record;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import quadrille.plan.anaesthesia.Refusal;

/**
 * Something in a course's log that is worth a second look. It is kept as it was said, for it may
 * well be what happened; nothing is refused for it.
 */
public sealed interface Doubt {

  /** Number of the entry that says it. */
  int entry();

  /** The visit that it is about; 0 where it is about none. */
  int visit();

  /**
   * An entry is of an earlier time than the one before it.
   *
   * @param at when the entry was written
   * @param before when the one before it was
   */
  record ClockWentBack(int entry, OffsetDateTime at, OffsetDateTime before) implements Doubt {
    @Override
    public int visit() {
      return 0;
    }
  }

  /**
   * A visit is dated before one that was recorded earlier.
   *
   * @param other the visit that was recorded earlier
   */
  record DatedBefore(int entry, int visit, LocalDate date, int other, LocalDate otherDate)
      implements Doubt {}

  /**
   * A visit gave what the patient should not have had, what was given earlier that day seen.
   *
   * @param refusal why it should not
   */
  record Dose(int entry, int visit, Refusal refusal) implements Doubt {}

  /**
   * A visit was corrected after the visits to come were planned.
   *
   * @param planned number of the entry that planned them
   */
  record CorrectedSince(int entry, int visit, int planned) implements Doubt {}

  /** A tooth may be another one than was meant. */
  record Teeth(TeethInDoubt.Statement statement) implements Doubt {
    @Override
    public int entry() {
      return statement.entry();
    }

    @Override
    public int visit() {
      return statement.visit();
    }
  }
}
