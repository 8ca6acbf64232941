package quadrille.cli.render;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.PlanChange;
import quadrille.plan.course.PlanChange.AreaPass;
import quadrille.plan.course.PlanChange.What;
import quadrille.plan.course.PlanChange.Why;

/** What a new plan of a course changes, in sentences. */
public final class ChangeWords {

  private ChangeWords() {}

  /** What changed, and why. */
  static String of(PlanChange change, Numbering numbering, Practice practice) {
    return what(change, numbering, practice) + " " + why(change);
  }

  /** What changed. */
  public static String what(PlanChange change, Numbering numbering, Practice practice) {
    What what = change.what();
    if (what instanceof What.AsWritten written) {
      return written.text();
    }
    if (what instanceof What.OtherPractice other) {
      return other.name().equals(other.before())
          ? "The practice's figures are others, under the same name, " + other.name() + "."
          : "The practice's figures are those of "
              + other.name()
              + ", not of "
              + other.before()
              + ".";
    }
    String visit = "Visit " + change.visit();
    if (what instanceof What.FallsAway away) {
      return visit + " falls away" + (away.booked() ? ", though it is booked." : ".");
    }
    if (what instanceof What.IsNew one) {
      return visit
          + " is new, "
          + one.bookedMinutes()
          + " min: "
          + one.passes().stream()
              .map(pass -> pass(pass, numbering))
              .collect(Collectors.joining("; "))
          + ".";
    }
    if (what instanceof What.Takes takes) {
      return visit + " takes the " + pass(takes.pass(), numbering) + ".";
    }
    if (what instanceof What.NoLongerHas gone) {
      return visit + " no longer has the " + pass(gone.pass(), numbering) + ".";
    }
    if (what instanceof What.Seconds other) {
      return String.format(
          Locale.ROOT,
          "%s: the %s takes %.1f min, not %.1f.",
          visit,
          pass(other.pass(), numbering),
          other.seconds() / 60.0,
          other.before() / 60.0);
    }
    if (what instanceof What.Needs needs) {
      return visit + " needs " + needs.minutes() + " min, not " + needs.before() + booked(needs);
    }
    if (what instanceof What.Numbs numbs) {
      return visit + " numbs " + numbs.side().word() + ", not " + numbs.before().word() + ".";
    }
    if (what instanceof What.Gives gives) {
      return visit
          + " gives "
          + injections(gives.injections(), numbering, practice)
          + ", not "
          + injections(gives.before(), numbering, practice)
          + ".";
    }
    return visit + " takes its steps in another order.";
  }

  /** Why it changed. */
  public static String why(PlanChange change) {
    Why why = change.why();
    if (why instanceof Why.AsWritten written) {
      return written.text();
    }
    if (why instanceof Why.LeftUndone left) {
      return "Visit "
          + left.visit()
          + (left.begun() ? " did only a part of it." : " did not do it.");
    }
    return switch ((Why.Known) why) {
      case OTHER_PRACTICE -> "Another practice file was named.";
      case TOO_LITTLE_ROOM -> "What is left does not fit into the visits to come.";
      case FEWER_VISITS_DO -> "What is left fits into fewer visits.";
      case NOTHING_LEFT -> "Nothing is left for it.";
      case PUT_TOGETHER_ANEW -> "The visits to come were put together anew.";
      case FINDINGS_ASK -> "New findings ask for it.";
      case NEW_FINDINGS -> "New findings were charted.";
      case DONE_EARLY -> "It was done early.";
      case PARTLY_DONE_EARLY -> "A part of it was done early.";
      case OTHER_FIGURES -> "The practice's figures have changed.";
      case OTHER_WORK -> "Its work has changed.";
      case OTHER_NUMBING -> "What must be numb has changed.";
    };
  }

  private static String pass(AreaPass pass, Numbering numbering) {
    return pass.pass().word() + " pass of " + pass.area().name(numbering);
  }

  private static String booked(What.Needs needs) {
    Integer booked = needs.booked();
    if (booked == null) {
      return ".";
    }
    return needs.minutes() <= booked
        ? "; the " + booked + " that are booked hold it."
        : "; it is booked for " + booked + " and must be booked anew.";
  }

  private static String injections(
      List<GivenInjection> given, Numbering numbering, Practice practice) {
    return given.isEmpty()
        ? "no injection"
        : given.stream()
            .map(
                one ->
                    Words.injection(one.ref(), numbering, practice)
                        + " ("
                        + Words.agent(one.agent(), practice)
                        + ")")
            .sorted()
            .collect(Collectors.joining(", "));
  }
}
