package quadrille.plan.staging;

import static ai.timefold.solver.core.api.score.stream.ConstraintCollectors.compose;
import static ai.timefold.solver.core.api.score.stream.ConstraintCollectors.count;
import static ai.timefold.solver.core.api.score.stream.ConstraintCollectors.countBi;
import static ai.timefold.solver.core.api.score.stream.ConstraintCollectors.max;
import static ai.timefold.solver.core.api.score.stream.ConstraintCollectors.sum;
import static ai.timefold.solver.core.api.score.stream.ConstraintCollectors.toList;

import ai.timefold.solver.core.api.score.buildin.hardsoftlong.HardSoftLongScore;
import ai.timefold.solver.core.api.score.stream.Constraint;
import ai.timefold.solver.core.api.score.stream.ConstraintFactory;
import ai.timefold.solver.core.api.score.stream.ConstraintProvider;
import ai.timefold.solver.core.api.score.stream.Joiners;
import ai.timefold.solver.core.api.score.stream.bi.BiConstraintStream;
import ai.timefold.solver.core.api.score.stream.uni.UniConstraintStream;
import java.util.Comparator;
import java.util.List;
import quadrille.facts.practice.Pass;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.NumbSide;
import quadrille.plan.visit.InsertStock;
import quadrille.plan.visit.NumbSides;
import quadrille.plan.visit.StagingCase;
import quadrille.plan.visit.VisitTimeline;

/**
 * The rule book: first what no course may break, then what each course costs, in seconds of chair
 * time.
 *
 * <p>A hard rule is penalised by how much of it is broken, in units of its own, so that the search
 * can see its way back.
 */
public final class StagingRules implements ConstraintProvider {
  private static final HardSoftLongScore BROKEN = HardSoftLongScore.ONE_HARD;
  private static final HardSoftLongScore SECOND = HardSoftLongScore.ONE_SOFT;

  /** What one whole breach weighs beside one second over a limit. */
  private static final long BREACH = 600;

  @Override
  public Constraint[] defineConstraints(ConstraintFactory factory) {
    return new Constraint[] {
      oneNumbSide(factory),
      noDoubleBlock(factory),
      withinMaximumDose(factory),
      withinMaximumDoseOfTheDay(factory),
      visitNotTooLong(factory),
      bookedLengthKept(factory),
      promisedSideKept(factory),
      passesInOrderInAVisit(factory),
      passesInOrderAcrossVisits(factory),
      wholeMouthGrossFirst(factory),
      passOfAnAreaTogether(factory),
      areaBegunIsFinished(factory),
      implantsOnlyWithSleeve(factory),
      numbnessLasts(factory),
      kitHoldsInserts(factory),
      sterileSetsSuffice(factory),
      alertsKept(factory),
      opensAsAsked(factory),
      startsWithComplaint(factory),
      wishesThatMustBeKept(factory),
      noEmptyVisit(factory),
      chairTime(factory),
      balance(factory),
      splitQuadrant(factory),
      worstAreasLate(factory),
      injections(factory),
      cartridges(factory),
      noRoomToRepeat(factory),
      returnsToQuadrant(factory),
      worstAreaFirst(factory),
      areasLeftOpen(factory),
      blocksBeforeLook(factory),
      needlesWithinArea(factory),
      pricedVisits(factory),
      wishesNotKept(factory)
    };
  }

  private static UniConstraintStream<VisitSlot> visits(ConstraintFactory factory) {
    return factory.forEachIncludingUnassigned(VisitSlot.class);
  }

  private static BiConstraintStream<VisitSlot, VisitSlot> earlierAndLater(
      ConstraintFactory factory) {
    return visits(factory)
        .join(
            factory.forEachIncludingUnassigned(VisitSlot.class),
            Joiners.lessThan(VisitSlot::number));
  }

  /**
   * H1: blocks, and all cover from the first premolar back, lie on one side; on the other at most
   * front teeth are infiltrated.
   */
  Constraint oneNumbSide(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.staging().practice().appointments().oneNumbSide())
        .filter(visit -> visit.layout().dosing().secondSide() > 0)
        .penalizeLong(BROKEN, visit -> BREACH * visit.layout().dosing().secondSide())
        .asConstraint(HardRule.ONE_NUMB_SIDE.name());
  }

  /** H2: never a right and a left inferior alveolar block in one visit. */
  Constraint noDoubleBlock(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.layout().dosing().doubleBlocks() > 0)
        .penalizeLong(BROKEN, visit -> BREACH * visit.layout().dosing().doubleBlocks())
        .asConstraint(HardRule.NO_DOUBLE_BLOCK.name());
  }

  /**
   * H3: the shares of the maximum doses of a visit add up to at most 1, and epinephrine keeps its
   * cap.
   */
  Constraint withinMaximumDose(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.layout().dosing().excess() > 0)
        .penalizeLong(BROKEN, visit -> visit.layout().dosing().excess())
        .asConstraint(HardRule.DOSE.name());
  }

  /** H3 where all visits are on one day: doses count up over the day. */
  Constraint withinMaximumDoseOfTheDay(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.staging().oneDay())
        .groupBy(
            sum(visit -> visit.layout().dosing().sharePermille()),
            sum(visit -> visit.layout().dosing().epinephrineMicrograms()))
        .join(StagingCase.class)
        .filter((share, epinephrine, staging) -> overOfDay(share, epinephrine, staging) > 0)
        .penalizeLong(BROKEN, StagingRules::overOfDay)
        .asConstraint(HardRule.DOSE_OF_THE_DAY.name());
  }

  private static long overOfDay(int share, int epinephrine, StagingCase staging) {
    int shareOfDay = share + staging.earlierPermille();
    int epinephrineOfDay = epinephrine + staging.earlierMicrograms();
    return (long) Math.max(0, shareOfDay - 1000)
        + Math.max(0, epinephrineOfDay - staging.epinephrineCapMicrograms());
  }

  /** H4: the booked length fits the practice's longest visit and the patient's. */
  Constraint visitNotTooLong(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.layout().overrunSeconds() > 0)
        .penalizeLong(BROKEN, visit -> visit.layout().overrunSeconds())
        .asConstraint(HardRule.LENGTH.name());
  }

  /** H4 where a visit has been booked: it fits the length that it was booked for. */
  Constraint bookedLengthKept(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> secondsBeyondBooking(visit) > 0)
        .penalizeLong(BROKEN, StagingRules::secondsBeyondBooking)
        .asConstraint(HardRule.BOOKED_LENGTH.name());
  }

  private static long secondsBeyondBooking(VisitSlot visit) {
    Integer minutes = visit.stands().minutes();
    return minutes == null
        ? 0
        : 60L * Math.max(0, visit.layout().bookedMinutes(visit.staging()) - minutes);
  }

  /** H1 where the patient has been told which side will be numb. */
  Constraint promisedSideKept(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> injectionsElsewhere(visit) > 0)
        .penalizeLong(BROKEN, visit -> BREACH * injectionsElsewhere(visit))
        .asConstraint(HardRule.PROMISED_SIDE.name());
  }

  private static long injectionsElsewhere(VisitSlot visit) {
    NumbSide promised = visit.stands().side();
    return promised == null
        ? 0
        : NumbSides.elsewhere(
            visit.layout().dosing().cover(),
            promised,
            visit.staging().practice().appointments().midlineInfiltration());
  }

  /** H5 within a visit: in an area gross before fine before finishing. */
  Constraint passesInOrderInAVisit(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.layout().outOfOrder() > 0)
        .penalizeLong(BROKEN, visit -> BREACH * visit.layout().outOfOrder())
        .asConstraint(HardRule.ORDER_OF_PASSES_IN_A_VISIT.name());
  }

  /** H5 across visits: in an area gross before fine before finishing. */
  Constraint passesInOrderAcrossVisits(ConstraintFactory factory) {
    return earlierAndLater(factory)
        .filter((earlier, later) -> passesTooLate(earlier, later) > 0)
        .penalizeLong(BROKEN, (earlier, later) -> BREACH * passesTooLate(earlier, later))
        .asConstraint(HardRule.ORDER_OF_PASSES.name());
  }

  private static int passesTooLate(VisitSlot earlier, VisitSlot later) {
    long[] first = earlier.layout().set().areasByPass();
    long[] second = later.layout().set().areasByPass();
    return Long.bitCount(first[1] & second[0])
        + Long.bitCount(first[2] & second[0])
        + Long.bitCount(first[2] & second[1]);
  }

  /** H5, where a case asks for it: the gross pass of the whole mouth before any fine pass. */
  Constraint wholeMouthGrossFirst(ConstraintFactory factory) {
    return earlierAndLater(factory)
        .filter((earlier, later) -> earlier.staging().grossFirst())
        .filter((earlier, later) -> grossTooLate(earlier, later) > 0)
        .penalizeLong(BROKEN, (earlier, later) -> BREACH * grossTooLate(earlier, later))
        .asConstraint(HardRule.WHOLE_MOUTH_GROSS_FIRST.name());
  }

  private static int grossTooLate(VisitSlot earlier, VisitSlot later) {
    long[] first = earlier.layout().set().areasByPass();
    long[] second = later.layout().set().areasByPass();
    return Long.bitCount(first[1] | first[2]) * Long.bitCount(second[0]);
  }

  /** H6: the steps of one pass of one area stay in one visit. */
  Constraint passOfAnAreaTogether(ConstraintFactory factory) {
    return earlierAndLater(factory)
        .filter((one, other) -> sharedBlocks(one, other) > 0)
        .penalizeLong(BROKEN, (one, other) -> BREACH * sharedBlocks(one, other))
        .asConstraint(HardRule.TOGETHER.name());
  }

  private static int sharedBlocks(VisitSlot one, VisitSlot other) {
    return one.layout().set().blocks().intersection(other.layout().set().blocks()).size();
  }

  /** H11: all passes of an area lie in one visit, or as near as the practice asks. */
  Constraint areaBegunIsFinished(ConstraintFactory factory) {
    return earlierAndLater(factory)
        .filter((one, other) -> other.number() - one.number() > one.staging().visitsToFinish())
        .filter((one, other) -> sharedAreas(one, other) > 0)
        .penalizeLong(BROKEN, (one, other) -> BREACH * sharedAreas(one, other))
        .asConstraint(HardRule.BEGUN_IS_FINISHED.name());
  }

  private static int sharedAreas(VisitSlot one, VisitSlot other) {
    return Long.bitCount(one.layout().set().areas() & other.layout().set().areas());
  }

  /** H7: an implant meets only the sleeved insert at low power. */
  Constraint implantsOnlyWithSleeve(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.layout().set().wrongInsert() > 0)
        .penalizeLong(BROKEN, visit -> BREACH * visit.layout().set().wrongInsert())
        .asConstraint(HardRule.IMPLANTS.name());
  }

  /** H8: numbness has come before a step that needs it, and has not worn off before it ends. */
  Constraint numbnessLasts(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.layout().wornOffSeconds() > 0)
        .penalizeLong(BROKEN, visit -> visit.layout().wornOffSeconds())
        .asConstraint(HardRule.NUMBNESS_LASTS.name());
  }

  /** H9: a visit uses only inserts that its kit can hold. */
  Constraint kitHoldsInserts(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> insertsBeyondKit(visit) > 0)
        .penalizeLong(BROKEN, visit -> BREACH * insertsBeyondKit(visit))
        .asConstraint(HardRule.KITS.name());
  }

  private static int insertsBeyondKit(VisitSlot visit) {
    int holds = visit.staging().practice().appointments().kitHolds().asInt();
    return Math.max(0, visit.layout().set().distinctInserts() - holds);
  }

  /** H9: the sterile sets of each insert suffice for the visits of one day. */
  Constraint sterileSetsSuffice(ConstraintFactory factory) {
    return factory
        .forEach(InsertStock.class)
        .join(
            factory.forEachIncludingUnassigned(VisitSlot.class),
            Joiners.filtering(
                (stock, visit) ->
                    visit.number() <= stock.visits()
                        && (visit.layout().set().inserts() >>> stock.insertIndex() & 1) != 0))
        .groupBy((stock, visit) -> stock, countBi())
        .filter((stock, uses) -> uses > stock.sterileSets())
        .penalizeLong(BROKEN, (stock, uses) -> BREACH * (uses - stock.sterileSets()))
        .asConstraint(HardRule.STERILE_SETS_OF_THE_DAY.name());
  }

  /** H10: nothing is planned that needs an injection which no allowed agent can give. */
  Constraint alertsKept(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.layout().dosing().unnumbable() > 0)
        .penalizeLong(BROKEN, visit -> BREACH * visit.layout().dosing().unnumbable())
        .asConstraint(HardRule.ALERTS.name());
  }

  /**
   * H10: nothing is touched before it is numb, and few teeth come before the first look at the
   * bleeding, where an alert or the practice asks for that.
   */
  Constraint opensAsAsked(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.layout().openingBreaches() > 0)
        .penalizeLong(BROKEN, visit -> BREACH * visit.layout().openingBreaches())
        .asConstraint(HardRule.OPENING.name());
  }

  /** H10: the quadrant of the chief complaint comes in the first visit. */
  Constraint startsWithComplaint(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.number() == 1 && visit.staging().startWith() != null)
        .filter(
            visit ->
                visit.steps().stream()
                    .noneMatch(
                        step -> step.step().area().quadrant() == visit.staging().startWith()))
        .penalizeLong(BROKEN, visit -> BREACH)
        .asConstraint(HardRule.START_WITH_THE_COMPLAINT.name());
  }

  /** What is wished and must be kept. */
  Constraint wishesThatMustBeKept(ConstraintFactory factory) {
    return wholeCourse(factory)
        .filter((areas, staging) -> staging.wishes().breaches(areas) > 0)
        .penalizeLong(BROKEN, (areas, staging) -> BREACH * staging.wishes().breaches(areas))
        .asConstraint(HardRule.WISHED.name());
  }

  /** Exactly as many visits as asked for, none of them empty. */
  Constraint noEmptyVisit(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> visit.steps().isEmpty())
        .penalizeLong(BROKEN, visit -> BREACH)
        .asConstraint(HardRule.NO_EMPTY_VISIT.name());
  }

  /** Chair time: set-up, injections, waiting, work, changes, close. */
  Constraint chairTime(ConstraintFactory factory) {
    return visits(factory)
        .penalizeLong(SECOND, visit -> visit.layout().chairSeconds())
        .asConstraint(CourseTerm.CHAIR_TIME.name());
  }

  /** The longest visit above the mean. */
  Constraint balance(ConstraintFactory factory) {
    return visits(factory)
        .groupBy(
            compose(
                max((VisitSlot visit) -> visit.layout().chairSeconds()),
                sum((VisitSlot visit) -> visit.layout().chairSeconds()),
                count(),
                (longest, all, number) -> longest - (double) all / number))
        .join(StagingCase.class)
        .penalizeLong(SECOND, (above, staging) -> staging.balanceCost(above))
        .asConstraint(CourseTerm.BALANCE.name());
  }

  /** A quadrant's fine pass spread over visits. */
  Constraint splitQuadrant(ConstraintFactory factory) {
    return visits(factory)
        .groupBy(sum((VisitSlot visit) -> visit.layout().set().quadrantsWithFine()))
        .join(StagingCase.class)
        .penalizeLong(SECOND, (spread, staging) -> staging.splitCost(spread))
        .asConstraint(CourseTerm.SPLIT_QUADRANT.name());
  }

  /** Each visit that an area's fine pass waits, by the area's burden. */
  Constraint worstAreasLate(ConstraintFactory factory) {
    return visits(factory)
        .penalizeLong(SECOND, StagingRules::lateCost)
        .asConstraint(CourseTerm.WORST_AREAS_LATE.name());
  }

  private static long lateCost(VisitSlot visit) {
    long fineAreas = visit.layout().set().areasByPass()[Pass.FINE.ordinal()];
    return visit.staging().lateCost(fineAreas, visit.number() - 1);
  }

  /** Each injection, each block where an alert prices it, and what agents cost in lower blocks. */
  Constraint injections(ConstraintFactory factory) {
    return visits(factory)
        .groupBy(
            sum((VisitSlot visit) -> visit.layout().dosing().injections()),
            sum((VisitSlot visit) -> visit.layout().dosing().deepBlocks()),
            sum((VisitSlot visit) -> visit.layout().dosing().strongBlockSeconds()))
        .join(StagingCase.class)
        .penalizeLong(
            SECOND,
            (number, blocks, strong, staging) -> staging.injectionCost(number, blocks, strong))
        .asConstraint(CourseTerm.INJECTIONS.name());
  }

  /** Each cartridge opened. */
  Constraint cartridges(ConstraintFactory factory) {
    return visits(factory)
        .groupBy(sum((VisitSlot visit) -> visit.layout().dosing().cartridges()))
        .join(StagingCase.class)
        .penalizeLong(SECOND, (number, staging) -> staging.cartridgeCost(number))
        .asConstraint(CourseTerm.CARTRIDGES.name());
  }

  /** Each injection that may fail and for whose repeat the visit's own doses leave no room. */
  Constraint noRoomToRepeat(ConstraintFactory factory) {
    return visits(factory)
        .groupBy(sum((VisitSlot visit) -> visit.layout().dosing().noRoomToRepeat()))
        .join(StagingCase.class)
        .penalizeLong(SECOND, (number, staging) -> staging.noRoomCost(number))
        .asConstraint(CourseTerm.NO_ROOM_TO_REPEAT.name());
  }

  /** Each return, within a visit, to a quadrant that was left. */
  Constraint returnsToQuadrant(ConstraintFactory factory) {
    return visits(factory)
        .penalizeLong(SECOND, StagingRules::returnSeconds)
        .asConstraint(CourseTerm.RETURNS.name());
  }

  private static long returnSeconds(VisitSlot visit) {
    return (long) visit.staging().returnSeconds() * visit.layout().returns();
  }

  /** Each visit that begins elsewhere than in its worst area, by the area's burden. */
  Constraint worstAreaFirst(ConstraintFactory factory) {
    return visits(factory)
        .penalizeLong(SECOND, StagingRules::worstFirstSeconds)
        .asConstraint(CourseTerm.WORST_FIRST.name());
  }

  private static long worstFirstSeconds(VisitSlot visit) {
    VisitTimeline layout = visit.layout();
    return layout.orderSeconds() - returnSeconds(visit) - layout.givingSeconds();
  }

  /** Each visit after which an area is left begun and not finished. */
  Constraint areasLeftOpen(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> !visit.staging().areasWhole())
        .groupBy(toList())
        .map(StagingRules::areas)
        .join(StagingCase.class)
        .penalizeLong(SECOND, (areas, staging) -> staging.leftOpenCost(areas))
        .asConstraint(CourseTerm.LEFT_OPEN.name());
  }

  /** Each deep block given before the look at the bleeding, where an alert prices it. */
  Constraint blocksBeforeLook(ConstraintFactory factory) {
    return visits(factory)
        .penalizeLong(SECOND, visit -> visit.layout().blocksBeforeLookSeconds())
        .asConstraint(CourseTerm.BLOCKS_BEFORE_LOOK.name());
  }

  /** Each time that injections part two steps of one pass of an area. */
  Constraint needlesWithinArea(ConstraintFactory factory) {
    return visits(factory)
        .penalizeLong(SECOND, visit -> visit.layout().needlesWithinAreaSeconds())
        .asConstraint(CourseTerm.NEEDLES_WITHIN_AREA.name());
  }

  /** Each wish that is not kept, of those that need not be. */
  Constraint wishesNotKept(ConstraintFactory factory) {
    return wholeCourse(factory)
        .penalizeLong(SECOND, (areas, staging) -> staging.wishes().cost(areas))
        .asConstraint(CourseTerm.WISHES.name());
  }

  /** The areas of each visit in order, where anything is wished. */
  private static BiConstraintStream<long[], StagingCase> wholeCourse(ConstraintFactory factory) {
    return visits(factory)
        .filter(visit -> !visit.staging().patient().wishes().isEmpty())
        .groupBy(toList())
        .map(StagingRules::areas)
        .join(StagingCase.class);
  }

  private static long[] areas(List<VisitSlot> visits) {
    return visits.stream()
        .sorted(Comparator.comparingInt(VisitSlot::number))
        .mapToLong(visit -> visit.layout().set().areas())
        .toArray();
  }

  /** Each visit, where an alert prices it. */
  Constraint pricedVisits(ConstraintFactory factory) {
    return visits(factory)
        .groupBy(count())
        .join(StagingCase.class)
        .penalizeLong(SECOND, (number, staging) -> staging.visitCost(number))
        .asConstraint(CourseTerm.VISITS.name());
  }
}
