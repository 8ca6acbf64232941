package quadrille.plan.course;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Numbering;
import quadrille.facts.chart.Quadrant;
import quadrille.plan.work.StepAspect;

/**
 * What the words of a plan file of version 1 say, which had no typed keys: teeth are ISO 3950 codes
 * there. What says nothing that is known is kept as written.
 */
final class FirstPlanWords {

  private static final String NUMBNESS = "numbness ";

  private FirstPlanWords() {}

  private record Spot(String before, AreaRef area, StepAspect aspect) {}

  /** The injection of the visit's list that has this name, or gel. */
  static Entry inject(int start, int seconds, String words, List<GivenInjection> given) {
    for (GivenInjection one : given) {
      if (one.ref().name(Numbering.ISO3950).equals(words)) {
        return new Entry.Inject(start, seconds, one.ref());
      }
    }
    Optional<Spot> gelled = spot(words).filter(spot -> !spot.before().isEmpty());
    return gelled.isPresent()
        ? new Entry.ApplyGel(
            start, seconds, gelled.get().before(), gelled.get().area(), gelled.get().aspect())
        : new Entry.AsWritten(start, seconds, Entry.Kind.INJECT, words);
  }

  /** The gel that was put in before, or quadrants that must be numb. */
  static Entry waiting(int start, int seconds, String words, List<Entry> before) {
    for (Entry entry : before) {
      if (entry instanceof Entry.ApplyGel gel && gel.gel().equals(words)) {
        return new Entry.Wait(start, seconds, new Awaited.Gel(words));
      }
    }
    List<Quadrant> quadrants = new ArrayList<>();
    if (words.startsWith(NUMBNESS)) {
      for (String name : words.substring(NUMBNESS.length()).split(", ", -1)) {
        Stream.of(Quadrant.values()).filter(q -> q.name().equals(name)).forEach(quadrants::add);
      }
    }
    return quadrants.isEmpty() || quadrants.size() < words.split(", ", -1).length
        ? new Entry.AsWritten(start, seconds, Entry.Kind.WAIT, words)
        : new Entry.Wait(start, seconds, new Awaited.Numbness(quadrants));
  }

  /** An area and an aspect. */
  static Entry move(int start, int seconds, String words) {
    Optional<Spot> spot = spot(words).filter(one -> one.before().isEmpty());
    return spot.isPresent()
        ? new Entry.Reposition(start, seconds, spot.get().area(), spot.get().aspect())
        : new Entry.AsWritten(start, seconds, Entry.Kind.REPOSITION, words);
  }

  /** The area and the aspect with which words end, such as {@code UR posterior 18-17 facial}. */
  private static Optional<Spot> spot(String words) {
    List<String> tokens = Arrays.asList(words.split(" ", -1));
    int last = tokens.size() - 1;
    for (StepAspect aspect : StepAspect.values()) {
      for (int from = Math.max(0, last - 3);
          from < last && tokens.get(last).equals(aspect.word());
          from++) {
        Optional<AreaRef> area =
            AreaRef.named(String.join(" ", tokens.subList(from, last)), Numbering.ISO3950);
        if (area.isPresent()) {
          return Optional.of(
              new Spot(String.join(" ", tokens.subList(0, from)), area.get(), aspect));
        }
      }
    }
    return Optional.empty();
  }
}
