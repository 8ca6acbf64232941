package quadrille.treatment.day;

import java.time.LocalDate;
import java.util.List;

/** A course that waits for somebody to do something about it. */
public sealed interface Waiting {

  String caseName();

  /**
   * Visits that are in no diary.
   *
   * @param visits their numbers; at least one
   */
  record ToBook(String caseName, List<Integer> visits) implements Waiting {
    public ToBook {
      visits = List.copyOf(visits);
    }
  }

  /** A visit whose time has passed, and of which the log says nothing. */
  record ToRecord(String caseName, int visit, LocalDate day) implements Waiting {}

  /**
   * Work is left that is in no visit to come, so that it has to be planned again: it was not done,
   * or all visits took place and the plan had held it back.
   */
  record ToPlanAgain(String caseName) implements Waiting {}

  /**
   * All visits took place, no work was held back, and the mouth has not been charted since.
   *
   * @param from first day for it; not after today
   * @param to last day for it
   */
  record ToReevaluate(String caseName, LocalDate from, LocalDate to) implements Waiting {}
}
