package quadrille.diary.desk;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/** A single change to a diary by hand, in which nothing else is sought or moved. */
public sealed interface DeskChange {

  /**
   * A visit is called off; its time is free, and no other is sought. Where the reason is that the
   * patient did not come, it is missed.
   *
   * @param booking id
   * @param later whether the later visits of its course are called off with it
   */
  record CallOff(String booking, boolean later) implements DeskChange {}

  /** A course is ended: what is to come of it is called off, and it asks for nothing more. */
  record EndCourse(String caseName) implements DeskChange {}

  /**
   * One visit is put at another time.
   *
   * @param booking id
   * @param clinician id; null for the one who has it
   * @param chair id; null for the one that it has, or another that is free then
   * @param past whether a time that is past is meant
   */
  record Move(
      String booking,
      Instant start,
      @Nullable String clinician,
      @Nullable String chair,
      boolean past)
      implements DeskChange {}

  /**
   * A visit is held and not promised.
   *
   * @param booking id
   * @param until when it is called off by itself, at the latest when it begins; null for never
   */
  record Hold(String booking, @Nullable Instant until) implements DeskChange {}

  /**
   * A visit that is held is promised.
   *
   * @param booking id
   */
  record Promise(String booking) implements DeskChange {}

  /**
   * A visit took place.
   *
   * @param booking id
   */
  record Done(String booking) implements DeskChange {}

  /**
   * The last change is taken back.
   *
   * @param anyway also where the audit finds something in the diary that comes back
   */
  record Undo(boolean anyway) implements DeskChange {}

  /**
   * A patient of whom nothing is to come is taken out of the diary and its journal, and cannot be
   * brought back.
   */
  record Forget(String caseName) implements DeskChange {}
}
