package quadrille.cli.render.page;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.cli.render.FrameWords;
import quadrille.cli.render.PlanFileWords;
import quadrille.cli.render.WholeMinutes;
import quadrille.cli.render.Words;
import quadrille.cli.render.picture.InsertMarks;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Entry;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.InjectionRef;
import quadrille.plan.course.Visit;

/**
 * A row of a visit's sequence as read beside the chair, in whole minutes. A step's row begins with
 * the move to it, and each change of insert heads the steps that follow; so every minute of the
 * visit is there and the rows stay few.
 *
 * @param kind {@code insert} heads the steps of an insert, {@code step} is work, {@code other} the
 *     rest
 * @param start minutes from the start; empty where an insert is on from the start
 * @param takes minutes up to the next row; empty likewise
 * @param doing what is done
 * @param where at what; for {@code other} any detail
 * @param numb whether it is done numb, and at which teeth where not at all of them; empty for no
 * @param mark the insert's mark, for {@code insert} and {@code step}
 */
public record SequenceRow(
    String kind,
    String start,
    String takes,
    String doing,
    String where,
    String teeth,
    String power,
    String numb,
    InsertMarks.@Nullable Mark mark) {

  static List<SequenceRow> of(Visit visit, Chart chart, Practice practice, InsertMarks marks) {
    return new Rows(visit, chart, practice, marks).rows();
  }

  private static final class Rows {
    private final Visit visit;
    private final Chart chart;
    private final Practice practice;
    private final InsertMarks marks;
    private final List<SequenceRow> rows = new ArrayList<>();
    private Entry.@Nullable Reposition move;
    private @Nullable String on;

    Rows(Visit visit, Chart chart, Practice practice, InsertMarks marks) {
      this.visit = visit;
      this.chart = chart;
      this.practice = practice;
      this.marks = marks;
    }

    List<SequenceRow> rows() {
      for (Entry entry : visit.sequence()) {
        if (!(entry instanceof Entry.Debride)) {
          moveAlone();
        }
        add(entry);
      }
      moveAlone();
      return List.copyOf(rows);
    }

    private void add(Entry entry) {
      if (entry instanceof Entry.Debride step) {
        step(step);
      } else if (entry instanceof Entry.ChangeTip change) {
        on = change.to();
        rows.add(head(start(change), takes(change.startSecond(), change), on));
      } else if (entry instanceof Entry.Reposition reposition) {
        move = reposition;
      } else if (entry instanceof Entry.Inject inject) {
        other(entry, "Inject", injected(inject.injection()));
      } else if (entry instanceof Entry.ApplyGel gel) {
        other(entry, "Gel", Words.place(gel.area(), gel.aspect(), chart.numbering()));
      } else if (entry.kind() == Entry.Kind.WAIT) {
        other(entry, "Wait", "for " + PlanFileWords.awaited(entry, chart.numbering()));
      } else if (entry instanceof Entry.AsWritten written) {
        boolean moves = written.kind() == Entry.Kind.REPOSITION;
        other(entry, moves ? "Move" : "Inject", (moves ? "to " : "") + written.text());
      } else if (entry instanceof Entry.Probe) {
        other(entry, "Chart", PlanFileWords.of(practice).entry(entry, chart.numbering()));
      } else if (entry instanceof Entry.Look) {
        other(entry, "Look", "at the bleeding before going on");
      } else if (entry instanceof Entry.OfFrame part) {
        other(entry, FrameWords.of(part.task()), "");
      } else if (entry instanceof Entry.SetUp) {
        other(entry, "Set up", "");
      } else {
        other(entry, "Close", "notes");
      }
    }

    private void step(Entry.Debride step) {
      for (InjectionRef block : visit.testedBefore(step)) {
        rows.add(
            new SequenceRow(
                "other",
                "",
                "",
                "Test",
                "the "
                    + Words.injection(block, chart.numbering(), practice)
                    + " block, before going on",
                "",
                "",
                "",
                null));
      }
      if (!step.insert().equals(on)) {
        on = step.insert();
        rows.add(head("", "", on));
      }
      rows.add(
          new SequenceRow(
              "step",
              start(move == null ? step : move),
              takes((move == null ? step : move).startSecond(), step),
              pass(step.pass()),
              Words.place(step.area(), step.aspect(), chart.numbering()),
              Words.teeth(step.teeth(), chart.numbering()),
              step.power() == Power.NONE ? "by hand" : step.power().word(),
              Words.numb(step, chart, practice, "numb"),
              marks.of(step.insert())));
      move = null;
    }

    private SequenceRow head(String start, String takes, String insert) {
      String doing = start.isEmpty() ? "On from the start" : "Change to";
      return new SequenceRow("insert", start, takes, doing, insert, "", "", "", marks.of(insert));
    }

    private void moveAlone() {
      Entry.Reposition alone = move;
      if (alone != null) {
        move = null;
        other(alone, "Move", "to " + Words.place(alone.area(), alone.aspect(), chart.numbering()));
      }
    }

    private void other(Entry entry, String doing, String where) {
      rows.add(
          new SequenceRow(
              "other",
              start(entry),
              takes(entry.startSecond(), entry),
              doing,
              where,
              "",
              "",
              "",
              null));
    }

    private static String start(Entry entry) {
      return Integer.toString(WholeMinutes.at(entry.startSecond()));
    }

    private static String takes(int fromSecond, Entry last) {
      return WholeMinutes.words(fromSecond, last.endSecond());
    }

    /** What is injected, with its volume. */
    private String injected(InjectionRef injection) {
      String where = Words.injection(injection, chart.numbering(), practice);
      for (GivenInjection given : visit.injections()) {
        if (given.ref().equals(injection)) {
          return where + ", " + Words.number(given.ml(), 2) + "\u00a0mL";
        }
      }
      return where;
    }

    private static String pass(Pass pass) {
      return switch (pass) {
        case GROSS -> "Gross";
        case FINE -> "Fine";
        case FINISHING -> "Finishing";
        case IMPLANT_CARE -> "Implant care";
      };
    }
  }
}
