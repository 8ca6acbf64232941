package quadrille.diary.booking;

import java.time.LocalDate;

/** Something that has happened to a diary and that bookings must make room for. */
public sealed interface DiaryChange {

  /**
   * A visit is called off; its course asks for it again.
   *
   * @param booking id
   */
  record Cancelled(String booking) implements DiaryChange {}

  /**
   * A patient did not come; the course asks for the visit again.
   *
   * @param booking id
   */
  record Missed(String booking) implements DiaryChange {}

  /**
   * A clinician is away.
   *
   * @param clinician id
   * @param last day, included
   */
  record Away(String clinician, LocalDate first, LocalDate last) implements DiaryChange {}

  /**
   * The practice is closed.
   *
   * @param last day, included
   */
  record Closed(LocalDate first, LocalDate last) implements DiaryChange {}
}
