package quadrille.cli;

import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine.Option;
import quadrille.document.FaultWords;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Wish;
import quadrille.facts.chart.WishSentences;
import quadrille.facts.practice.Practice;

/** What is wished of a course, beside what the chart wishes. */
final class WishOption {

  @Option(
      names = "--wish",
      order = 13,
      paramLabel = "WISH",
      description =
          "Such as \"must UR posterior in visit 2\" or \"rather UL and LL together\"; beside"
              + " the chart's own wishes. May be repeated.")
  private List<String> sentences = List.of();

  /** Whether there are any. */
  boolean given() {
    return !sentences.isEmpty();
  }

  /**
   * The chart with these wishes added.
   *
   * @throws StopException with every fault, where there is one
   */
  Chart added(Chart chart, Practice practice) throws StopException {
    List<String> faults = new ArrayList<>();
    List<Wish> wishes = new ArrayList<>(chart.patient().wishes());
    for (Wish wish : WishSentences.read(sentences, chart, faults)) {
      if (!wishes.contains(wish)) {
        wishes.add(wish);
      }
    }
    List<String> inserts = List.copyOf(practice.inserts().keySet());
    for (Wish wish : wishes) {
      if (wish.ask() instanceof Wish.NotInsert not && !inserts.contains(not.insert())) {
        faults.add(
            FaultWords.quote(wish.words(chart.numbering()))
                + ": the practice has no insert of that name; it has "
                + FaultWords.either(inserts, not.insert()));
      }
    }
    WishSentences.fault(wishes, chart.numbering()).ifPresent(faults::add);
    if (!faults.isEmpty()) {
      throw StopException.usage("--wish " + String.join("\n--wish ", faults));
    }
    return chart.withPatient(chart.patient().withWishes(wishes));
  }
}
