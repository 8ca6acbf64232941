package quadrille.diary.booking.problem;

import org.jspecify.annotations.Nullable;

/** A visit that may hold a slot: what the search places, as the problem sees it. */
public interface Commitment {

  /** What is placed. */
  VisitCase visit();

  /** Where it is; null while it has no place. */
  @Nullable Slot slot();

  /** Whether it stands in the diary and stays. */
  boolean pinned();

  /** First minute; it must have a place. */
  int start();

  /** First minute after it; it must have a place. */
  int end();
}
