package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import quadrille.document.FaultWords;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Wish;
import quadrille.facts.practice.InsertClass;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.course.HardRule;
import quadrille.plan.course.Remedy;
import quadrille.plan.course.Remedy.Change;
import quadrille.plan.planning.Clash;
import quadrille.plan.work.Unworkable;

/** Why there is no plan and what would help, in words. */
public final class ClashWords {

  private ClashWords() {}

  /** A term of a course's cost. */
  static String term(CourseTerm term) {
    return switch (term) {
      case CHAIR_TIME -> "chair time";
      case BALANCE -> "balance";
      case SPLIT_QUADRANT -> "split quadrant";
      case WORST_AREAS_LATE -> "worst areas late";
      case INJECTIONS -> "injections";
      case CARTRIDGES -> "cartridges";
      case NO_ROOM_TO_REPEAT -> "no room to repeat";
      case RETURNS -> "returns to a quadrant";
      case WORST_FIRST -> "worst area first";
      case LEFT_OPEN -> "areas left open between visits";
      case BLOCKS_BEFORE_LOOK -> "deep blocks before the look at the bleeding";
      case NEEDLES_WITHIN_AREA -> "needles in the middle of an area";
      case VISITS -> "visits";
      case WISHES -> "wishes not kept";
    };
  }

  /** Clashes, one line each. */
  public static List<String> of(List<Clash> clashes, Practice practice) {
    return clashes.stream().map(clash -> of(clash, practice)).toList();
  }

  static String of(Clash clash, Practice practice) {
    if (clash instanceof Clash.TooLittleWork little) {
      return "there is too little work for " + little.visits() + " visits, none of them empty";
    }
    if (clash instanceof Clash.TooManyPieces pieces) {
      return RuleWords.rule(HardRule.LENGTH)
          + ": no visit may be booked longer than "
          + pieces.allowedMinutes()
          + " minutes, and so short a visit holds less than one area; cut between all its teeth,"
          + " the work falls into more pieces than can be staged";
    }
    if (clash instanceof Clash.TooManyPiecesLeft) {
      return "what is left is cut into more pieces than can be staged";
    }
    if (clash instanceof Clash.EverythingWaits waits) {
      return RuleWords.rule(HardRule.ALERTS)
          + ": everything waits: "
          + (PlanFileWords.of(practice).reason(waits.reason())
                  + ". "
                  + PlanFileWords.lift(waits.reason()))
              .strip();
    }
    if (clash instanceof Clash.UnknownAgentGiven unknown) {
      return "the practice does not know the agent ("
          + unknown.agent()
          + ") that was given earlier that day";
    }
    if (clash instanceof Clash.UnknownInsert unknown) {
      return FaultWords.quote(unknown.wish().words(unknown.numbering()))
          + ": the practice has no insert of that name; it has "
          + FaultWords.either(unknown.inserts(), ((Wish.NotInsert) unknown.wish().ask()).insert());
    }
    if (clash instanceof Clash.NotAsWished wished) {
      return WishWords.refused(wished.wish(), wished.numbering(), wished.against());
    }
    if (clash instanceof Clash.WishedOtherNumber other) {
      return "the wish \""
          + other.wish().words(other.numbering())
          + "\" is for a number of visits other than those asked for, "
          + other.visits();
    }
    if (clash instanceof Clash.WishesClash all) {
      return "wishes of which each could be kept alone, but not all together: "
          + all.wishes().stream()
              .map(wish -> wish.words(all.numbering()))
              .collect(Collectors.joining("; "));
    }
    Clash.Broken broken = (Clash.Broken) clash;
    return broken.nearest().visitsGiven()
        ? withVisitsGiven(broken.rule(), broken.nearest())
        : withVisitsTried(broken.rule(), broken.nearest());
  }

  private static String withVisitsGiven(HardRule rule, Clash.Nearest nearest) {
    return RuleWords.rule(rule)
        + (rule.aboutLength()
            ? ": at most "
                + nearest.allowedMinutes()
                + " minutes may be booked, the nearest course tried needs "
                + nearest.longestMinutes()
            : "");
  }

  private static String withVisitsTried(HardRule rule, Clash.Nearest nearest) {
    String where = " (nearest course tried: " + RuleWords.visits(nearest.visits());
    return rule.aboutLength()
        ? RuleWords.rule(rule)
            + ": no visit may be booked longer than "
            + nearest.allowedMinutes()
            + " minutes"
            + where
            + ", "
            + nearest.longestMinutes()
            + " minutes at the longest)"
        : RuleWords.rule(rule) + where + ")";
  }

  /** What would help, one line a remedy, each with what it came to. */
  public static List<String> remedies(List<Remedy> remedies, Practice practice) {
    return remedies.stream()
        .map(remedy -> change(remedy, practice) + ": " + result(remedy))
        .toList();
  }

  /** What to change. */
  static String change(Remedy remedy, Practice practice) {
    if (remedy.change() instanceof Change.WithoutWish without) {
      return without.wish() == null
          ? "leave out all wishes"
          : "leave out \"" + without.wish().words(without.numbering()) + "\"";
    }
    return remedy.change() instanceof Change.Visits visits
        ? "plan " + RuleWords.visits(visits.number())
        : "allow " + ReasonWords.need(remedy.change(), practice);
  }

  /** What came of it. */
  static String result(Remedy remedy) {
    return RuleWords.visits(remedy.visits())
        + ", "
        + remedy.longestMinutes()
        + " minutes at the longest";
  }

  /** Work that no owned insert may do, a line for each piece of it. */
  public static List<String> unworkable(List<Unworkable> work, Chart chart) {
    return work.stream().map(one -> unworkable(one, chart)).toList();
  }

  static String unworkable(Unworkable work, Chart chart) {
    String teeth =
        work.teeth().stream().map(chart.numbering()::name).collect(Collectors.joining(" "));
    return Words.area(work.area().ref(), chart)
        + ", "
        + work.pass().word()
        + ", "
        + work.aspect().word()
        + " ("
        + teeth
        + "): "
        + why(work)
        + "; would do: "
        + wouldDo(work);
  }

  private static String why(Unworkable work) {
    if (!(work.why() instanceof Unworkable.NoInsert none)) {
      return "no row of the selection table matches";
    }
    List<String> reasons = new ArrayList<>();
    if (none.powerTooHigh()) {
      reasons.add("an implant takes low power only");
    }
    for (Unworkable.Unusable one : none.unusable()) {
      reasons.add(
          one.insert()
              + switch (one.obstacle()) {
                case NOT_OWNED -> " is not owned";
                case FOR_IMPLANTS_ONLY -> " is for implants only";
                case BARE_METAL -> " has no sleeve, and bare metal never touches an implant";
                case NOT_FOR_THE_PASS -> " is not allowed for the " + work.pass().word() + " pass";
                case NOT_WISHED -> " is not wished";
                case NOT_AT_THE_POWER ->
                    " is not allowed at " + none.rule().power().word() + " power";
              });
    }
    return "the row ("
        + none.rule().name()
        + ") has no insert that may be used: "
        + String.join(", ", reasons);
  }

  private static String wouldDo(Unworkable work) {
    boolean implant = work.pass() == Pass.IMPLANT_CARE;
    if (!(work.why() instanceof Unworkable.NoInsert none)) {
      return "a row for the "
          + work.pass().word()
          + " pass that names "
          + (implant ? "a sleeved insert at low power" : "an owned insert allowed for it");
    }
    return implant
        ? "an owned insert of class " + InsertClass.SLEEVED.word() + " at low power"
        : "an owned "
            + String.join(" or ", none.rule().use())
            + ", allowed for the "
            + work.pass().word()
            + " pass at "
            + none.rule().power().word()
            + " power; or a row that names another owned insert";
  }
}
