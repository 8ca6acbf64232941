package quadrille.diary.booking;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import quadrille.diary.booking.problem.CostTerm;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.booking.problem.TimeLine;
import quadrille.diary.booking.problem.VisitCase;

/** What slots for all visits of a course cost, by term. */
final class BookingCost {

  private BookingCost() {}

  /**
   * The terms. What the leftovers grow by is reckoned visit after visit; visits that stand fixed
   * have left theirs already.
   *
   * @param taken without the visits that were sought; the same afterwards
   */
  static Map<CostTerm, Long> of(CourseCase course, List<Slot> slots, Occupancy taken) {
    TimeLine time = course.booking().time();
    Map<CostTerm, Long> terms = new EnumMap<>(CostTerm.class);
    for (CostTerm term : CostTerm.values()) {
      terms.put(term, 0L);
    }
    for (VisitCase visit : course.visits()) {
      Slot slot = slots.get(visit.place());
      terms.merge(CostTerm.OTHER_CLINICIAN, course.clinicianCost(slot.clinician()), Long::sum);
      terms.merge(
          CostTerm.OTHER_TIME,
          course.timeCost(Math.max(0, slot.start()), visit.minutes()),
          Long::sum);
      terms.merge(CostTerm.INJECTOR, course.injectorCost(slot.callMinutes()), Long::sum);
      if (visit.place() > 0) {
        Slot before = slots.get(visit.place() - 1);
        terms.merge(
            CostTerm.CLINICIAN_CHANGE,
            course.changeCost(before.clinician(), slot.clinician()),
            Long::sum);
        terms.merge(
            CostTerm.LONGER_GAPS,
            course.gapCost(visit, time.day(slot.start()) - time.day(before.start())),
            Long::sum);
      }
      if (visit.fixed() == null) {
        int leftover =
            taken.sliver(slot.clinician(), time.day(slot.start()), slot.start(), visit.minutes());
        terms.merge(CostTerm.SLIVERS, (long) course.weights().sliverMinute() * leftover, Long::sum);
        taken.place(slot, visit.minutes(), visit.uses());
      }
    }
    for (VisitCase visit : course.visits()) {
      if (visit.fixed() == null) {
        taken.remove(slots.get(visit.place()), visit.minutes(), visit.uses());
      }
    }
    terms.put(CostTerm.WAIT, course.waitCost(time.day(slots.get(0).start())));
    terms.put(CostTerm.FINISH, course.finishCost(time.day(slots.get(slots.size() - 1).start())));
    return terms;
  }
}
