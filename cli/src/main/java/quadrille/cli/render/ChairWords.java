package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
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
