package quadrille;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.util.ArrayDeque;
import java.util.Collection;
import java.util.Deque;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/**
 * Whether a class stands in a knot: top-level classes of one package of which each leads to every
 * other. What is nested in a class counts as that class.
 */
final class BePartOfAKnot extends ArchCondition<JavaClass> {

  private final int largest;
  private final Map<String, Set<String>> knows = new TreeMap<>();

  /**
   * @param largest a knot of so many classes is let pass
   */
  BePartOfAKnot(int largest) {
    super("be part of a knot of more than " + largest + " classes");
    this.largest = largest;
  }

  @Override
  public void init(Collection<JavaClass> all) {
    for (JavaClass one : all) {
      Set<String> known = knows.computeIfAbsent(top(one).getName(), name -> new TreeSet<>());
      one.getDirectDependenciesFromSelf().stream()
          .map(Dependency::getTargetClass)
          .filter(other -> other.getPackageName().equals(one.getPackageName()))
          .map(other -> top(other).getName())
          .forEach(known::add);
    }
  }

  @Override
  public void check(JavaClass one, ConditionEvents events) {
    if (one.isNestedClass()) {
      return;
    }
    Set<String> knot =
        reached(one.getName()).stream()
            .filter(other -> reached(other).contains(one.getName()))
            .collect(Collectors.toCollection(TreeSet::new));
    events.add(
        new SimpleConditionEvent(one, knot.size() > largest, one.getSimpleName() + " in " + knot));
  }

  private Set<String> reached(String from) {
    Set<String> reached = new TreeSet<>();
    Deque<String> next = new ArrayDeque<>(knows.getOrDefault(from, Set.of()));
    while (!next.isEmpty()) {
      String name = next.pop();
      if (reached.add(name)) {
        next.addAll(knows.getOrDefault(name, Set.of()));
      }
    }
    return reached;
  }

  private static JavaClass top(JavaClass one) {
    return one.getEnclosingClass().map(BePartOfAKnot::top).orElse(one);
  }
}
