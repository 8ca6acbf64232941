package quadrille.plan.audit;

import java.util.Collection;
import java.util.List;
import java.util.Locale;
import quadrille.facts.chart.Tooth;
import quadrille.plan.work.Step;
import quadrille.plan.work.Target;

/** How findings put things into words. */
final class Say {

  private Say() {}

  static String teeth(Collection<Tooth> teeth) {
    return String.join(" ", teeth.stream().map(Tooth::toString).toList());
  }

  /** In words, such as {@code UR posterior, fine, facial (14 15)}. */
  static String step(Step step) {
    return step.area().ref()
        + ", "
        + step.pass().word()
        + ", "
        + step.aspect().word()
        + " ("
        + teeth(step.teeth())
        + ")";
  }

  static String targets(Collection<Target> targets) {
    List<String> words =
        targets.stream()
            .map(
                target ->
                    switch (target.kind()) {
                          case PULP -> "pulp of ";
                          case MESIOBUCCAL_ROOT -> "mesiobuccal root of ";
                          case FACIAL -> "facial gingiva of ";
                          case LINGUAL -> "lingual gingiva of ";
                        }
                        + target.tooth())
            .toList();
    return String.join(", ", words);
  }

  /** Seconds as minutes at two decimals. */
  static String minutes(double seconds) {
    return String.format(Locale.ROOT, "%.2f", seconds / 60);
  }

  /** A number without trailing zeros, at most so many decimals. */
  static String number(double value, int decimals) {
    String text = String.format(Locale.ROOT, "%." + decimals + "f", value);
    return text.contains(".") ? text.replaceAll("0+$", "").replaceAll("\\.$", "") : text;
  }

  static String list(Collection<String> words) {
    return words.isEmpty() ? "none" : String.join(", ", words);
  }
}
