package quadrille.diary.booking;

import java.time.LocalDate;
import java.util.List;
import quadrille.diary.book.Booking;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;

/**
 * A diary after changes.
 *
 * @param diary with the changes, and with every visit that found a place
 * @param moves in the order of their courses, each with its reason
 * @param left what found no other place; it is called off in the diary
 * @param freed what could be offered to those who wait
 * @param broken deadlines that were kept before and are not any more
 */
public record Rebooking(
    Diary diary, List<Move> moves, List<Lost> left, List<OfferedVisit> freed, List<Broken> broken) {

  public Rebooking {
    moves = List.copyOf(moves);
    left = List.copyOf(left);
    freed = List.copyOf(freed);
    broken = List.copyOf(broken);
  }

  /**
   * What a visit began is not ended in time.
   *
   * @param by the last day on which it would have been
   */
  public record Broken(String caseName, CourseRequest.Deadline deadline, LocalDate by) {}

  /**
   * A visit without a place.
   *
   * @param booking as it stood
   * @param because why it could not stay
   */
  public record Lost(Booking booking, Reason because) {}

  /**
   * A visit that moves.
   *
   * @param from as it stood
   * @param to as it stands now
   * @param because why
   */
  public record Move(Booking from, Booking to, Reason because) {}
}
