package quadrille.diary.booking;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.booking.problem.TimeLine;
import quadrille.diary.booking.problem.VisitCase;

/**
 * What a desk does without help: in order of arrival, each visit at its earliest legal slot, with
 * the first clinician who is free. Where a later visit then finds no place, the first visit is
 * tried a day later, and so on.
 */
final class FirstFit {

  private FirstFit() {}

  /** Slots for all visits of a course; nothing if this way there is none. */
  static Optional<List<Slot>> of(CourseCase course, Occupancy taken) {
    for (int day = Math.max(0, course.earliest()); day < course.booking().time().days(); day++) {
      List<Slot> slots = new ArrayList<>();
      int from = day;
      int to = day;
      for (VisitCase visit : course.visits()) {
        if (visit.place() > 0) {
          int before = course.booking().time().day(slots.get(visit.place() - 1).start());
          from = before + visit.request().gapMinDays();
          to = before + visit.request().gapMaxDays();
        }
        Slot slot = earliest(course, visit, taken, from, to);
        if (slot == null) {
          break;
        }
        slots.add(slot);
      }
      if (slots.size() == course.visits().size()) {
        return Optional.of(slots);
      }
    }
    return Optional.empty();
  }

  private static @Nullable Slot earliest(
      CourseCase course, VisitCase visit, Occupancy taken, int from, int to) {
    BookingCase booking = course.booking();
    TimeLine time = booking.time();
    for (int day = from; day <= Math.min(to, time.days() - 1); day++) {
      for (int start = booking.starts().next(time.dayStart(day));
          start >= 0 && start + visit.minutes() <= time.dayStart(day + 1);
          start = booking.starts().next(start + 1)) {
        int end = start + visit.minutes();
        int away = course.patientShut().next(start);
        if (away >= 0 && away < end || !taken.setsInStock(start, visit.minutes(), visit.uses())) {
          continue;
        }
        int chair = taken.chair(start, visit.minutes());
        for (int clinician = 0; clinician < booking.clinicians() && chair >= 0; clinician++) {
          if (visit.may().get(clinician) && taken.clinicianTaken(clinician, start) >= end) {
            return new Slot(start, clinician, chair);
          }
        }
      }
    }
    return null;
  }
}
