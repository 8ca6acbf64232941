package quadrille.diary.booking;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/** A single change that would make a booking feasible. */
public sealed interface Remedy {

  /**
   * A later last day.
   *
   * @param last day until which no time was free
   * @param until on which the last visit could be
   */
  record LaterEnd(LocalDate last, LocalDate until) implements Remedy {}

  /**
   * A longer longest gap between visits, as a clinician may allow.
   *
   * @param days over the longest gap of the plan, the fewest that help
   */
  record LongerGaps(int days) implements Remedy {}

  /**
   * More days to end what a visit began.
   *
   * @param days more, the fewest that help
   */
  record LongerDeadlines(int days) implements Remedy {}

  /**
   * A shorter shortest gap between visits.
   *
   * @param days fewer, the fewest that help
   */
  record ShorterGaps(int days) implements Remedy {}

  /**
   * A patient who comes when they said that they cannot.
   *
   * @param starts of the visits then
   */
  record PatientComes(List<Instant> starts) implements Remedy {
    public PatientComes {
      starts = List.copyOf(starts);
    }
  }

  /** One more clinician who may inject. */
  record AnotherInjector() implements Remedy {}

  /**
   * One more of a sterile set.
   *
   * @param set its name
   */
  record OneMoreSet(String set) implements Remedy {}

  /** One more chair. */
  record OneMoreChair() implements Remedy {}

  /** Bookings moved that are held and not yet promised. */
  record MovingHeld() implements Remedy {}

  /** Bookings of others moved, promised ones too. */
  record MovingOthers() implements Remedy {}
}
