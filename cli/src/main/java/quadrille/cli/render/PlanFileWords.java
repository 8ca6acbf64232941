package quadrille.cli.render;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Assumption;
import quadrille.plan.course.Awaited;
import quadrille.plan.course.Caution;
import quadrille.plan.course.Entry;
import quadrille.plan.course.HeldBack;
import quadrille.plan.course.OneVisitFewer;
import quadrille.plan.course.PlanChange;
import quadrille.plan.course.PlanWords;
import quadrille.plan.course.StopQuestion;
import quadrille.plan.course.WatchSite;
import quadrille.plan.course.WhyVisit;
import quadrille.plan.course.WishOutcome;
import quadrille.plan.work.StepAspect;

/** What a plan says in English, in its file and wherever else it is shown. */
public final class PlanFileWords implements PlanWords {

  private static final List<String> SITES = List.of("distal", "middle", "mesial");

  private final Practice practice;

  private PlanFileWords(Practice practice) {
    this.practice = practice;
  }

  /** The words of plans by a practice, which says what its agents and injections are called. */
  public static PlanFileWords of(Practice practice) {
    return new PlanFileWords(practice);
  }

  @Override
  public String entry(Entry entry, Numbering numbering) {
    if (entry instanceof Entry.Inject inject) {
      return Words.injection(inject.injection(), numbering, practice);
    }
    if (entry instanceof Entry.ApplyGel gel) {
      return gel.gel() + " " + Words.place(gel.area(), gel.aspect(), numbering);
    }
    if (entry instanceof Entry.Wait wait) {
      return wait.awaited() instanceof Awaited.Gel gel ? gel.gel() : awaited(entry, numbering);
    }
    if (entry instanceof Entry.Reposition move) {
      return Words.place(move.area(), move.aspect(), numbering);
    }
    if (entry instanceof Entry.Probe probe) {
      return probe.areas().stream()
              .map(area -> area.name(numbering))
              .collect(Collectors.joining(", "))
          + (probe.aspect() == StepAspect.BOTH ? "" : " " + probe.aspect().word())
          + ", what was not probed so far";
    }
    return entry instanceof Entry.AsWritten written ? written.text() : "";
  }

  /** What a wait waits for, as people say it beside the chair. */
  public static String awaited(Entry entry, Numbering numbering) {
    if (entry instanceof Entry.Wait wait) {
      return wait.awaited() instanceof Awaited.Numbness numbness
          ? "numbness "
              + String.join(", ", numbness.quadrants().stream().map(Quadrant::name).toList())
          : "the gel";
    }
    return entry instanceof Entry.AsWritten written ? written.text() : "";
  }

  @Override
  public String watch(WatchSite site, Numbering numbering) {
    if (site instanceof WatchSite.AsWritten written) {
      return written.text();
    }
    WatchSite.OfTooth tooth = (WatchSite.OfTooth) site;
    List<String> notes = new ArrayList<>();
    if (tooth.implant()) {
      notes.add("implant");
    }
    for (Aspect aspect : Aspect.values()) {
      List<WatchSite.Probed> sites =
          tooth.sites().stream().filter(one -> one.aspect() == aspect).toList();
      if (!sites.isEmpty()) {
        notes.add(aspect.word() + " " + deep(sites));
      }
    }
    if (tooth.furcation() > 0) {
      notes.add("furcation " + tooth.furcation());
    }
    if (tooth.mobility() > 0) {
      notes.add("mobility " + tooth.mobility());
    }
    tooth.features().forEach(feature -> notes.add(feature.word().replace('-', ' ')));
    return numbering.name(tooth.tooth()) + ": " + String.join(", ", notes);
  }

  private static String deep(List<WatchSite.Probed> sites) {
    List<String> words = new ArrayList<>();
    List<String> unprobed = new ArrayList<>();
    for (WatchSite.Probed site : sites) {
      Integer depth = site.depthMm();
      if (depth == null) {
        unprobed.add(SITES.get(site.site()));
      } else {
        words.add(SITES.get(site.site()) + " " + depth + " mm");
      }
    }
    if (!unprobed.isEmpty()) {
      words.add(
          (unprobed.size() == SITES.size() ? "" : String.join(" and ", unprobed) + " ")
              + "not probed");
    }
    return String.join(", ", words);
  }

  @Override
  public String reason(HeldBack.Reason reason) {
    if (reason instanceof HeldBack.AsWritten written) {
      return written.text();
    }
    if (reason instanceof HeldBack.Follows follows) {
      return "an earlier pass there is held back: " + reason(follows.waiting());
    }
    if (reason instanceof HeldBack.WholeArea whole) {
      return "an area is finished in the visit that begins it, and part of this one is held back: "
          + reason(whole.waiting());
    }
    if (reason instanceof HeldBack.NoAgent none) {
      return "no agent of the practice may be given: "
          + String.join("; ", none.agents().stream().map(this::refused).toList());
    }
    if (reason instanceof HeldBack.NoAgentServes none) {
      String agents =
          String.join(
              "; ", none.agents().stream().map(agent -> Words.agent(agent, practice)).toList());
      return none.dose()
          ? "the dose of no agent that may be given suffices there: " + agents
          : "with no agent that may be given does numbness last until the work there is done: "
              + agents;
    }
    if (reason instanceof HeldBack.NoInjectionWished) {
      return "no injection is wished there, and pocket gel does not serve";
    }
    if (reason instanceof HeldBack.AwaitsChart) {
      return "too much of the mouth was not probed: this is provisional, and planned again from the"
          + " new chart";
    }
    if (reason instanceof HeldBack.NoHistory) {
      return "nobody has taken the medical history, so no anaesthetic is planned";
    }
    return "the patient's weight is missing, so no dose can be planned and no injection is";
  }

  /** What lifts it: an imperative, or nothing where the file's own words must do. */
  public static String lift(HeldBack.Reason root) {
    if (root instanceof HeldBack.NoHistory) {
      return "Take the history first and plan again; until then a visit holds only what needs"
          + " nothing numb.";
    }
    if (root instanceof HeldBack.NoWeight) {
      return "Weigh the patient first and plan again; until then a visit holds only what needs"
          + " nothing numb.";
    }
    if (root instanceof HeldBack.NoAgent) {
      return "The clinician asks the physician which agent may be given, or refers.";
    }
    if (root instanceof HeldBack.NoAgentServes) {
      return "The clinician decides: a few teeth at a time, an injection given again within the"
          + " dose, another agent after asking the physician, or a referral.";
    }
    if (root instanceof HeldBack.NoInjectionWished) {
      return "The patient's consent to an injection lifts it.";
    }
    return root instanceof HeldBack.AwaitsChart ? "Chart the mouth anew and plan again." : "";
  }

  @Override
  public String caution(Caution caution, Numbering numbering) {
    return MindWords.of(caution, numbering);
  }

  @Override
  public String stopQuestion(StopQuestion question) {
    return MindWords.of(question);
  }

  @Override
  public String assumption(Assumption assumption) {
    return MindWords.of(assumption);
  }

  @Override
  public String cutShort() {
    return MindWords.CUT_SHORT;
  }

  @Override
  public String why(WhyVisit why) {
    return ReasonWords.why(why);
  }

  @Override
  public String oneVisitFewer(OneVisitFewer fewer) {
    return ReasonWords.sentence(fewer, practice);
  }

  @Override
  public String wish(WishOutcome outcome, Numbering numbering) {
    return WishWords.of(outcome, numbering);
  }

  @Override
  public String what(PlanChange change, Numbering numbering) {
    return ChangeWords.what(change, numbering, practice);
  }

  @Override
  public String why(PlanChange change) {
    return ChangeWords.why(change);
  }

  private String refused(HeldBack.Refused refused) {
    return Words.agent(refused.agent(), practice)
        + " ("
        + String.join(", ", refused.why().stream().map(DoubtWords::objection).toList())
        + ")";
  }
}
