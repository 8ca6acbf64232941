package quadrille.cli.render.picture;

import quadrille.cli.render.GelWords;
import quadrille.cli.render.Words;
import quadrille.facts.chart.Chart;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;

/** An entry of a sequence in one short phrase. */
final class SequenceWords {

  private SequenceWords() {}

  static String of(Entry entry, Visit visit, Chart chart) {
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
    if (entry instanceof Entry.Inject inject) {
      String gelled = GelWords.place(visit, inject.what());
      return gelled == null
          ? "Inject " + Words.area(inject.what(), chart)
          : "Gel into " + Words.area(gelled, chart);
    }
    if (entry instanceof Entry.Wait wait) {
      return "Wait for " + Words.area(GelWords.awaited(visit, wait.what()), chart);
    }
    if (entry instanceof Entry.ChangeTip change) {
      return "Change to " + change.to();
    }
    if (entry instanceof Entry.Reposition move) {
      return "Move to " + Words.area(move.to(), chart);
    }
    return entry instanceof Entry.SetUp ? "Set up" : "Close";
  }
}
