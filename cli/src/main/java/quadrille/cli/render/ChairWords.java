package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import quadrille.diary.book.Booking;
import quadrille.diary.book.Diary;
import quadrille.diary.book.InjectorCall;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HardRule;
import quadrille.treatment.restaging.OrderAtTheChair.Outcome;

/** Of a visit in another order, to somebody at the chair: why it cannot be, or what to mind. */
public final class ChairWords {

  private ChairWords() {}

  /** Why not, a sentence. */
  public static String of(Outcome.Not not, Numbering numbering, Practice practice) {
    return "Not in this order: " + why(not, numbering, practice) + ".";
  }

  /** That an order which was kept is not shown, and why. */
  public static String asPlanned(Outcome.Not not, Numbering numbering, Practice practice) {
    return "The order that was kept does not hold any more ("
        + why(not, numbering, practice)
        + "): the rows are as planned.";
  }

  /**
   * What is to be minded of an order that may be.
   *
   * @param toBook minutes that would be booked for it
   * @param booked minutes that are
   * @param late minutes by which a visit in which something is numb already ran behind the plan
   *     when it was put into this order; below 0 where it ran ahead
   */
  public static List<String> cautions(int toBook, int booked, long late) {
    List<String> cautions = new ArrayList<>();
    if (toBook > booked) {
      cautions.add(
          "In this order "
              + Words.count(toBook, "minute")
              + " would be booked for the visit; "
              + booked
              + " are.");
    }
    if (late != 0) {
      cautions.add(
          "When it was put into this order, the visit ran "
              + Words.count(Math.abs(late), "minute")
              + (late > 0 ? " behind" : " ahead of")
              + " the plan, by which numbness is reckoned here: go by the minutes under Numb.");
    }
    return cautions;
  }

  /**
   * That the rows do not wait for what was given again once work had been done under it; nothing
   * where there is none.
   */
  public static List<String> notWaited(
      Outcome.Ordered ordered, Numbering numbering, Practice practice) {
    return ordered.notWaited().stream()
        .map(
            entry ->
                PlanFileWords.of(practice).entry(entry, numbering)
                    + " was given again once work had been done under it; the rows do not wait for"
                    + " it: go by the minutes under Numb.")
        .toList();
  }

  /**
   * Who comes in to inject, and when.
   *
   * @param booking of the visit
   */
  public static List<String> comingIn(Diary diary, Booking booking) {
    return booking.injectors().stream()
        .map(call -> "Comes in to inject: " + who(diary, booking, call) + ".")
        .toList();
  }

  /**
   * Injections that fall outside the minutes for which somebody is booked to give them; nothing
   * where nobody is, or all are within.
   *
   * @param due when they are due, in seconds from the start of the visit
   */
  public static List<String> notBookedFor(Diary diary, Booking booking, List<Long> due) {
    List<Long> outside =
        due.stream()
            .filter(
                at ->
                    booking.injectors().stream()
                        .noneMatch(call -> 60L * call.from() <= at && at < 60L * call.to()))
            .toList();
    if (booking.injectors().isEmpty() || outside.isEmpty()) {
      return List.of();
    }
    return List.of(
        "To inject is booked: "
            + booking.injectors().stream()
                .map(call -> who(diary, booking, call))
                .collect(Collectors.joining(", "))
            + ". In this order injections are due at "
            + outside.stream()
                .map(at -> DiaryWords.time(booking.start().plusSeconds(at), diary.zone()))
                .distinct()
                .collect(Collectors.joining(", "))
            + ": ask first.");
  }

  private static String who(Diary diary, Booking booking, InjectorCall call) {
    return DiaryWords.clinician(diary, call.clinician())
        + " "
        + DiaryWords.span(call.time(booking.start()), diary.zone());
  }

  /** Steps that were done though what numbs them was not given; a sentence each. */
  public static List<String> workedWithout(List<Entry.Debride> steps, Numbering numbering) {
    return steps.stream()
        .map(
            step ->
                Words.capital(step.pass().word())
                    + " "
                    + Words.place(step.area(), step.aspect(), numbering)
                    + " was done, though what numbs it was not all given.")
        .distinct()
        .toList();
  }

  private static String why(Outcome.Not not, Numbering numbering, Practice practice) {
    if (not instanceof Outcome.Refused refused) {
      return refused.broken().stream().map(ChairWords::of).collect(Collectors.joining("; "));
    }
    if (not instanceof Outcome.NotNumbed missing) {
      PlanFileWords words = PlanFileWords.of(practice);
      return missing.entries().stream()
              .map(entry -> words.entry(entry, numbering))
              .collect(Collectors.joining(", "))
          + (missing.entries().size() == 1 ? " was" : " were")
          + " not given, and work is left that needs it: take “Not done” back and give it, or"
          + " leave that work out";
    }
    if (not instanceof Outcome.NotKnown unknown) {
      return switch (unknown.cause()) {
        case UNWORKABLE -> "by its file as it is, the practice cannot do the work of this mouth";
        case TOO_MANY_STEPS -> "the mouth has more steps than can be put in order";
        case AGENT_UNKNOWN -> "an agent was given that the practice file does not know";
        case OTHER_STEPS -> "the plan has steps that do not follow from this mouth and practice";
        case AUDIT -> "the plan with it did not stand when it was read a second time";
      };
    }
    return "it would take other injections than those of this visit";
  }

  private static String of(HardRule rule) {
    return switch (rule) {
      case ORDER_OF_PASSES_IN_A_VISIT ->
          "an area's gross work comes before its fine work, and finishing last";
      case NUMBNESS_LASTS -> "something would no longer be numb when its work ends";
      case OPENING ->
          "the visit begins numb, or with few teeth before the look at the bleeding, as planned";
      case LENGTH -> "the visit would be longer than may be booked";
      default -> RuleWords.rule(rule);
    };
  }
}
