package quadrille.cli.render.picture;

import quadrille.cli.render.FrameWords;
import quadrille.cli.render.PlanFileWords;
import quadrille.cli.render.Words;
import quadrille.facts.chart.Chart;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Entry;

/** An entry of a sequence in one short phrase. */
final class SequenceWords {

  private SequenceWords() {}

  static String of(Entry entry, Chart chart, Practice practice) {
    if (entry instanceof Entry.Debride step) {
      return Words.capital(step.pass().word().replace('-', ' '))
          + ", "
          + Words.area(step.area(), chart)
          + " "
          + step.aspect().word()
          + " ("
          + Words.teeth(step.teeth(), chart.numbering())
          + "), "
          + step.insert();
    }
    String words = PlanFileWords.of(practice).entry(entry, chart.numbering());
    if (entry instanceof Entry.ApplyGel gel) {
      return "Gel into " + Words.place(gel.area(), gel.aspect(), chart.numbering());
    }
    if (entry.kind() == Entry.Kind.INJECT) {
      return "Inject " + words;
    }
    if (entry.kind() == Entry.Kind.WAIT) {
      return "Wait for " + PlanFileWords.awaited(entry, chart.numbering());
    }
    if (entry instanceof Entry.ChangeTip change) {
      return "Change to " + change.to();
    }
    if (entry.kind() == Entry.Kind.REPOSITION) {
      return "Move to " + words;
    }
    if (entry instanceof Entry.Probe) {
      return "Chart " + words;
    }
    if (entry instanceof Entry.Look) {
      return "Look at the bleeding";
    }
    if (entry instanceof Entry.OfFrame part) {
      return FrameWords.of(part.task());
    }
    return entry instanceof Entry.SetUp ? "Set up" : "Close";
  }
}
