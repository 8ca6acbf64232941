package quadrille.cli.serve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Wish;
import quadrille.facts.chart.Wish.InVisit;
import quadrille.facts.chart.Wish.Region;
import quadrille.facts.chart.WishSentences;

/**
 * What is wished of courses at the page: areas moved to a visit, each of a course of so many
 * visits, and to be kept there.
 */
record MovedAreas(List<Wish> wishes) {

  MovedAreas {
    wishes = List.copyOf(wishes);
  }

  /**
   * Reads what an address says.
   *
   * @param sentences as {@link #text} writes them
   * @param faults gets a line for each fault
   */
  static MovedAreas of(String sentences, Chart chart, List<String> faults) {
    List<Wish> wishes =
        WishSentences.read(
            Arrays.stream(sentences.split(";")).filter(one -> !one.isBlank()).toList(),
            chart,
            faults);
    if (wishes.size() > Wish.MOST) {
      faults.add(wishes.size() + " wishes; at most " + Wish.MOST);
    }
    wishes.stream()
        .filter(wish -> !(wish.must() && wish.ask() instanceof InVisit in && in.ofVisits() != null))
        .map(wish -> wish.words(chart.numbering()))
        .forEach(
            words ->
                faults.add(
                    words
                        + ": here an area is wished in a visit, as in \"must UR posterior in"
                        + " visit 2 of 3\""));
    return new MovedAreas(wishes);
  }

  /** Those about courses of so many visits. */
  List<Wish> at(int visits) {
    return wishes.stream().filter(wish -> wish.holdsAt(visits)).toList();
  }

  /** With one more; what was wished of the same place in a course of as many visits gives way. */
  MovedAreas with(Wish moved, int visits) {
    List<Wish> changed = new ArrayList<>(without(moved, visits).wishes());
    changed.add(moved);
    return new MovedAreas(changed);
  }

  /** Without what is wished of a place in a course of so many visits. */
  MovedAreas without(Wish moved, int visits) {
    List<Region> there = moved.ask().regions();
    return new MovedAreas(
        wishes.stream()
            .filter(wish -> !wish.holdsAt(visits) || !wish.ask().regions().equals(there))
            .toList());
  }

  /** As an address says it. */
  String text(Numbering numbering) {
    return wishes.stream().map(wish -> wish.words(numbering)).collect(Collectors.joining("; "));
  }

  /** A mouth with these wishes beside its own, as far as they are about so many visits. */
  Chart wished(Chart chart, int visits) {
    return wished(chart, at(visits));
  }

  /** A mouth with all of them beside its own. */
  Chart wished(Chart chart) {
    return wished(chart, wishes);
  }

  private static Chart wished(Chart chart, List<Wish> more) {
    return more.isEmpty()
        ? chart
        : chart.withPatient(
            chart
                .patient()
                .withWishes(
                    Stream.of(chart.patient().wishes(), more).flatMap(List::stream).toList()));
  }
}
