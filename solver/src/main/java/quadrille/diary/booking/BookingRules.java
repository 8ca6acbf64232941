package quadrille.diary.booking;

import static ai.timefold.solver.core.api.score.stream.ConstraintCollectors.toList;
import static ai.timefold.solver.core.api.score.stream.Joiners.equal;
import static ai.timefold.solver.core.api.score.stream.Joiners.filtering;
import static ai.timefold.solver.core.api.score.stream.Joiners.lessThan;

import ai.timefold.solver.core.api.score.buildin.hardmediumsoftlong.HardMediumSoftLongScore;
import ai.timefold.solver.core.api.score.stream.Constraint;
import ai.timefold.solver.core.api.score.stream.ConstraintFactory;
import ai.timefold.solver.core.api.score.stream.ConstraintProvider;
import ai.timefold.solver.core.api.score.stream.bi.BiConstraintStream;
import ai.timefold.solver.core.api.score.stream.tri.TriConstraintStream;
import java.util.List;
import quadrille.diary.booking.BookedVisit.SetUse;
import quadrille.diary.booking.problem.SetStock;

/**
 * The rule book of booking: hard rules in minutes and days that are wrong, then how many visits are
 * booked at all, then what a booking costs in points. What stands in the diary is pinned and so
 * stays where it is.
 */
public final class BookingRules implements ConstraintProvider {

  private static final HardMediumSoftLongScore BROKEN = HardMediumSoftLongScore.ONE_HARD;
  private static final HardMediumSoftLongScore UNBOOKED = HardMediumSoftLongScore.ONE_MEDIUM;
  private static final HardMediumSoftLongScore POINT = HardMediumSoftLongScore.ONE_SOFT;

  @Override
  public Constraint[] defineConstraints(ConstraintFactory factory) {
    return new Constraint[] {
      clinicianOnce(factory),
      chairOnce(factory),
      insideHours(factory),
      chairInUse(factory),
      mayTreat(factory),
      injectorOnce(factory),
      injectorAtWork(factory),
      notTooEarly(factory),
      inOrder(factory),
      gapWindow(factory),
      finishWithin(factory),
      patientCanCome(factory),
      setsInStock(factory),
      everyVisitBooked(factory),
      finishEarly(factory),
      fairWaiting(factory),
      sameClinician(factory),
      preferredClinician(factory),
      preferredTimes(factory),
      injectorMinutes(factory),
      longerGaps(factory),
      noSlivers(factory),
      sliversFilled(factory)
    };
  }

  /** A clinician is in one place at a time. */
  Constraint clinicianOnce(ConstraintFactory factory) {
    return factory
        .forEachUniquePair(
            BookedVisit.class,
            equal(BookedVisit::clinician),
            equal(BookedVisit::day),
            filtering(BookingRules::newlyShared))
        .penalizeLong(BROKEN, (one, other) -> one.sharedWith(other))
        .asConstraint("clinician once");
  }

  /** A chair takes one patient at a time. */
  Constraint chairOnce(ConstraintFactory factory) {
    return factory
        .forEachUniquePair(
            BookedVisit.class,
            equal(BookedVisit::chair),
            equal(BookedVisit::day),
            filtering(BookingRules::newlyShared))
        .penalizeLong(BROKEN, (one, other) -> one.sharedWith(other))
        .asConstraint("chair once");
  }

  /** Inside the clinician's hours, not over breaks, absence, closed and busy times. */
  Constraint insideHours(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(visit -> !visit.pinned() && visit.minutesOutOfHours() > 0)
        .penalizeLong(BROKEN, BookedVisit::minutesOutOfHours)
        .asConstraint("inside hours");
  }

  /** Not while the chair is out of use. */
  Constraint chairInUse(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(visit -> !visit.pinned() && visit.minutesWithoutChair() > 0)
        .penalizeLong(BROKEN, BookedVisit::minutesWithoutChair)
        .asConstraint("chair in use");
  }

  /**
   * Only with a clinician who may do what the visit needs, such as inject; or with another who
   * comes to inject whenever a needle does.
   */
  Constraint mayTreat(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(visit -> !visit.pinned() && !visit.allowed())
        .penalizeLong(BROKEN, visit -> visit.visit().minutes())
        .asConstraint("may treat");
  }

  /** Who comes to inject is with no other patient. */
  Constraint injectorOnce(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(BookedVisit::called)
        .join(
            BookedVisit.class,
            equal(BookedVisit::day),
            filtering(
                (one, other) ->
                    one != other
                        && (!one.pinned() || !other.pinned())
                        && (!other.called() || one.id() < other.id())
                        && one.callMinutesSharedWith(other) > 0))
        .penalizeLong(BROKEN, (one, other) -> one.callMinutesSharedWith(other))
        .asConstraint("injector once");
  }

  /** Who comes to inject works then, and has nothing else. */
  Constraint injectorAtWork(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(visit -> !visit.pinned() && visit.callMinutesOutOfHours() > 0)
        .penalizeLong(BROKEN, BookedVisit::callMinutesOutOfHours)
        .asConstraint("injector at work");
  }

  /** Not before the course's earliest day. */
  Constraint notTooEarly(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(visit -> !visit.pinned() && visit.day() < visit.course().earliest())
        .penalizeLong(BROKEN, visit -> visit.course().earliest() - visit.day())
        .asConstraint("not too early");
  }

  /** The visits of a course in their order. */
  Constraint inOrder(ConstraintFactory factory) {
    return consecutive(factory)
        .filter((before, after) -> after.start() < before.end())
        .penalizeLong(BROKEN, (before, after) -> before.end() - after.start())
        .asConstraint("in order");
  }

  /** The days between two visits of a course within their window. */
  Constraint gapWindow(ConstraintFactory factory) {
    return consecutive(factory)
        .filter((before, after) -> after.daysOffGap(before) > 0)
        .penalizeLong(BROKEN, (before, after) -> after.daysOffGap(before))
        .asConstraint("gap window");
  }

  /** What a visit began is ended within the days asked for. */
  Constraint finishWithin(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .join(
            BookedVisit.class,
            equal(BookedVisit::courseNumber),
            lessThan(BookedVisit::visitPlace),
            filtering((begins, ends) -> ends.daysLateAfter(begins) > 0))
        .penalizeLong(BROKEN, (begins, ends) -> ends.daysLateAfter(begins))
        .asConstraint("finish within");
  }

  /** Only when the patient can come. */
  Constraint patientCanCome(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(visit -> !visit.pinned() && visit.minutesPatientAway() > 0)
        .penalizeLong(BROKEN, BookedVisit::minutesPatientAway)
        .asConstraint("patient can come");
  }

  /** At no moment more sterile sets in use or being reprocessed than there are. */
  Constraint setsInStock(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .flattenLast((BookedVisit visit) -> visit.uses())
        .join(SetStock.class, equal(SetUse::set, SetStock::set), equal(SetUse::day, SetStock::day))
        .groupBy((use, stock) -> stock, toList((SetUse use, SetStock stock) -> use.visit()))
        .filter((stock, visits) -> stock.tooMany(visits) > 0)
        .penalizeLong(BROKEN, SetStock::tooMany)
        .asConstraint("sets in stock");
  }

  /** As many visits as can be. */
  Constraint everyVisitBooked(ConstraintFactory factory) {
    return factory
        .forEachIncludingUnassigned(BookedVisit.class)
        .filter(visit -> !visit.booked())
        .penalizeLong(UNBOOKED, visit -> 1)
        .asConstraint("every visit booked");
  }

  /** Each day until a course is finished. */
  Constraint finishEarly(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(BookedVisit::last)
        .penalizeLong(POINT, visit -> visit.course().finishCost(visit.day()))
        .asConstraint("finish early");
  }

  /**
   * The square of the days until a course begins: nobody waits very long so that others need not.
   */
  Constraint fairWaiting(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(BookedVisit::first)
        .penalizeLong(POINT, visit -> visit.course().waitCost(visit.day()))
        .asConstraint("fair waiting");
  }

  /** Each change of clinician from one visit to the next. */
  Constraint sameClinician(ConstraintFactory factory) {
    return consecutive(factory)
        .penalizeLong(
            POINT,
            (before, after) -> after.course().changeCost(before.clinician(), after.clinician()))
        .asConstraint("same clinician");
  }

  /** Each visit with another clinician than the patient prefers. */
  Constraint preferredClinician(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .penalizeLong(POINT, visit -> visit.course().clinicianCost(visit.clinician()))
        .asConstraint("preferred clinician");
  }

  /** Each visit at other times than the patient prefers. */
  Constraint preferredTimes(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .penalizeLong(POINT, BookedVisit::timeCost)
        .asConstraint("preferred times");
  }

  /** Each minute for which another comes to inject. */
  Constraint injectorMinutes(ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .penalizeLong(POINT, visit -> visit.course().injectorCost(visit.callMinutes()))
        .asConstraint("injector minutes");
  }

  /** Each day over the longest gap of the plan, where a clinician allows it. */
  Constraint longerGaps(ConstraintFactory factory) {
    return consecutive(factory)
        .penalizeLong(POINT, (before, after) -> after.gapCost(before))
        .asConstraint("longer gaps");
  }

  /** Each minute more that bookings leave over on a clinician's day and nobody can use. */
  Constraint noSlivers(ConstraintFactory factory) {
    return clinicianDays(factory)
        .penalizeLong(
            POINT, (clinician, day, visits) -> Math.max(0, leftOver(clinician, day, visits)))
        .asConstraint("no slivers");
  }

  /** Each such minute less, where a short visit fills up what was left over before. */
  Constraint sliversFilled(ConstraintFactory factory) {
    return clinicianDays(factory)
        .rewardLong(
            POINT, (clinician, day, visits) -> Math.max(0, -leftOver(clinician, day, visits)))
        .asConstraint("slivers filled");
  }

  private static TriConstraintStream<Integer, Integer, List<BookedVisit>> clinicianDays(
      ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .filter(visit -> visit.start() >= 0 && visit.day() < visit.course().booking().time().days())
        .groupBy(BookedVisit::clinician, BookedVisit::day, toList());
  }

  private static long leftOver(int clinician, int day, List<BookedVisit> visits) {
    return visits.get(0).course().booking().leftOver(clinician, day, visits);
  }

  /** What stands in the diary is not judged against what stands there. */
  private static boolean newlyShared(BookedVisit one, BookedVisit other) {
    return (!one.pinned() || !other.pinned()) && one.sharedWith(other) > 0;
  }

  private static BiConstraintStream<BookedVisit, BookedVisit> consecutive(
      ConstraintFactory factory) {
    return factory
        .forEach(BookedVisit.class)
        .join(
            BookedVisit.class,
            equal(BookedVisit::courseNumber),
            equal(BookedVisit::placeAfter, BookedVisit::visitPlace))
        .filter((before, after) -> !before.pinned() || !after.pinned());
  }
}
