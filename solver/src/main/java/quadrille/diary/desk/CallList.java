package quadrille.diary.desk;

import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.DiaryWeek;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.VisitRequest;

/**
 * Whom to call or remind, and when.
 *
 * @param calls by day, then by case and visit
 */
public record CallList(List<Call> calls) {

  /** Days before a visit on which its patient is reminded; an assumption. */
  public static final int REMINDED_DAYS = 2;

  public CallList {
    calls = List.copyOf(calls);
  }

  /** What a call is for. */
  public enum Purpose {
    /** A hold ends: ask whether the patient takes the time. */
    HOLD_ENDS,
    /** A visit is held: ask whether it can be promised. */
    CONFIRM,
    /** A promised visit comes near. */
    REMIND,
    /** A visit has no time: offer one. */
    BOOK,
    /** A visit is over, and nobody said whether it took place. */
    SAY_WHAT_BECAME
  }

  /**
   * A call.
   *
   * @param day on which to make it, today or later
   * @param visit its number in the course
   * @param booking that it is about; null where there is none
   * @param by the last day for what it is about, or null where nothing limits it
   */
  public record Call(
      LocalDate day,
      Purpose purpose,
      String caseName,
      int visit,
      @Nullable Booking booking,
      @Nullable LocalDate by) {}

  /**
   * The list.
   *
   * @param now by whose day the list begins
   * @param days how many days it is for, 1 or more
   */
  public static CallList of(Diary diary, Instant now, int days) {
    LocalDate today = now.atZone(diary.zone()).toLocalDate();
    List<Call> calls = new ArrayList<>();
    for (Booking booking : diary.bookings()) {
      if (booking.coming()) {
        calls.add(about(diary, booking, now, today));
      }
    }
    for (DiaryWeek.Next next : DiaryWeek.of(diary, today, today).courses()) {
      VisitRequest visit = next.visit();
      if (visit != null) {
        CourseRequest course = next.course();
        calls.add(
            new Call(today, Purpose.BOOK, course.caseName(), visit.number(), null, next.to()));
      }
    }
    calls.removeIf(call -> !call.day().isBefore(today.plusDays(days)));
    calls.sort(
        Comparator.comparing(Call::day)
            .thenComparing(Call::purpose)
            .thenComparing(Call::caseName)
            .thenComparing(Call::visit));
    return new CallList(calls);
  }

  private static Call about(Diary diary, Booking booking, Instant now, LocalDate today) {
    LocalDate on = booking.start().atZone(diary.zone()).toLocalDate();
    Instant until = booking.until();
    Purpose purpose;
    LocalDate last;
    if (!booking.end().isAfter(now)) {
      purpose = Purpose.SAY_WHAT_BECAME;
      last = today;
    } else if (booking.status() == BookingStatus.PROMISED) {
      purpose = Purpose.REMIND;
      last = on.minusDays(REMINDED_DAYS);
    } else if (until == null) {
      purpose = Purpose.CONFIRM;
      last = on.minusDays(REMINDED_DAYS);
    } else {
      purpose = Purpose.HOLD_ENDS;
      last = until.atZone(diary.zone()).toLocalDate();
    }
    LocalDate day = last;
    while (day.isAfter(today) && shut(diary, day)) {
      day = day.minusDays(1);
    }
    return new Call(
        day.isBefore(today) ? today : day,
        purpose,
        booking.caseName(),
        booking.visit(),
        booking,
        purpose == Purpose.SAY_WHAT_BECAME ? null : last);
  }

  /** Whether nobody works in the practice on a day. */
  private static boolean shut(Diary diary, LocalDate day) {
    boolean closed =
        diary.closed().stream().anyMatch(off -> off.from() == null && within(off, day));
    return closed
        || diary.clinicians().stream()
            .noneMatch(
                one ->
                    one.hours().stream().anyMatch(hours -> hours.on(day))
                        || one.extra().stream().anyMatch(extra -> extra.date().equals(day)));
  }

  private static boolean within(TimeOff off, LocalDate day) {
    return ChronoUnit.DAYS.between(off.first(), day) >= 0
        && ChronoUnit.DAYS.between(day, off.last()) >= 0;
  }
}
