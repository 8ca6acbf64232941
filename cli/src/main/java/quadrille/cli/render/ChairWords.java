package quadrille.cli.render;

import java.util.List;
import java.util.stream.Collectors;
import quadrille.plan.course.HardRule;
import quadrille.treatment.restaging.OrderAtTheChair.Outcome;

/** Why a visit cannot go on in another order, to somebody at the chair. */
public final class ChairWords {

  private ChairWords() {}

  /** A sentence. */
  public static String of(Outcome.Refused refused) {
    List<HardRule> broken = refused.broken();
    return broken.isEmpty()
        ? "Not in this order: the plan could not be read a second time with it."
        : "Not in this order: "
            + broken.stream().map(ChairWords::of).collect(Collectors.joining("; "))
            + ".";
  }

  /** A sentence. */
  public static String of(Outcome.OtherInjections others) {
    return "Not in this order: it would take other injections than those of this visit.";
  }

  private static String of(HardRule rule) {
    return switch (rule) {
      case ORDER_OF_PASSES_IN_A_VISIT -> "an area's gross work comes before its fine work, and finishing last";
      case NUMBNESS_LASTS -> "something would no longer be numb when its work ends";
      case OPENING ->
          "the visit begins numb, or with few teeth before the look at the bleeding, as planned";
      case LENGTH -> "the visit would be longer than may be booked";
      default -> RuleWords.rule(rule);
    };
  }
}
