package quadrille.diary.booking;

/** Why a visit cannot stay where it stands. */
public sealed interface Reason {

  /** It was called off. */
  record Cancelled() implements Reason {}

  /** The patient did not come. */
  record Missed() implements Reason {}

  /** The practice is closed on its day. */
  record PracticeClosed() implements Reason {}

  /**
   * Its clinician is away on its day.
   *
   * @param clinician id
   */
  record ClinicianAway(String clinician) implements Reason {}

  /**
   * It makes room for another course.
   *
   * @param caseName the other's
   */
  record MakesRoom(String caseName) implements Reason {}

  /** It follows another visit of its course that moves. */
  record FollowsItsCourse() implements Reason {}

  /**
   * It goes before another visit of its course that moves.
   *
   * @param visit that one's number
   */
  record GoesBefore(int visit) implements Reason {}

  /**
   * A visit that goes before it has no place.
   *
   * @param visit that one's number
   */
  record NothingBefore(int visit) implements Reason {}
}
