package quadrille.constraints;

import static java.util.stream.Collectors.toCollection;
import static org.junit.jupiter.api.Assertions.assertEquals;

import ai.timefold.solver.core.api.score.stream.Constraint;
import ai.timefold.solver.core.api.score.stream.ConstraintFactory;
import ai.timefold.solver.core.api.score.stream.ConstraintProvider;
import ai.timefold.solver.test.api.score.stream.ConstraintVerifier;
import ai.timefold.solver.test.api.score.stream.SingleConstraintAssertion;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.TreeSet;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;

/**
 * A test of the constraint with the class's own name, nested in the test of a rule book.
 *
 * @param <P> the rule book
 */
public abstract class OfConstraint<P extends ConstraintProvider> {
  private final ConstraintVerifier<P, ?> verifier;
  private final Class<P> rules;

  protected OfConstraint(ConstraintVerifier<P, ?> verifier, Class<P> rules) {
    this.verifier = verifier;
    this.rules = rules;
  }

  protected final Judged given(Object... facts) {
    return new Judged(
        verifier.verifyThat(this::constraint).given(facts), any(getClass(), "penalises.*"));
  }

  /**
   * What a constraint says of facts.
   *
   * @param rule whether it is a rule, and no price
   */
  public record Judged(SingleConstraintAssertion said, boolean rule) {

    /** By how much they break it, in all. */
    public void penalizesBy(long weight) {
      said.penalizesBy(weight);
    }

    /** By how much they please it, in all. */
    public void rewardsWith(long weight) {
      said.rewardsWith(weight);
    }

    /** Nothing; of a rule no match either, which would be told as a breach that costs nothing. */
    public void hasNoImpact() {
      if (rule) {
        said.penalizes(0);
      } else {
        said.hasNoImpact();
      }
    }
  }

  private Constraint constraint(P book, ConstraintFactory factory) {
    String method = method(getClass());
    try {
      Method made = rules.getDeclaredMethod(method, ConstraintFactory.class);
      made.setAccessible(true);
      return (Constraint) made.invoke(book, factory);
    } catch (NoSuchMethodException | IllegalAccessException | InvocationTargetException e) {
      throw new IllegalStateException("No constraint " + method + ".", e);
    }
  }

  private static String method(Class<?> type) {
    String name = type.getSimpleName();
    return name.substring(0, 1).toLowerCase(Locale.ROOT) + name.substring(1);
  }

  /** The names of a rule book's constraints. */
  public static TreeSet<String> written(Class<? extends ConstraintProvider> rules) {
    return Arrays.stream(rules.getDeclaredMethods())
        .filter(method -> method.getReturnType() == Constraint.class)
        .map(Method::getName)
        .collect(toCollection(TreeSet::new));
  }

  /**
   * Each constraint has its nested class, in which it is broken in one test and kept in another.
   */
  public static void assertEachHasItsTest(
      Class<? extends ConstraintProvider> rules, Class<?> test) {
    List<Class<?>> nested =
        Arrays.stream(test.getDeclaredClasses())
            .filter(type -> type.isAnnotationPresent(Nested.class))
            .toList();
    assertEquals(
        written(rules),
        nested.stream().map(OfConstraint::method).collect(toCollection(TreeSet::new)));
    for (Class<?> type : nested) {
      assertEquals(
          List.of(true, true),
          List.of(
              any(type, "(penalises|costs|sums|rewards).*"),
              any(type, "(leavesAlone|costsNothing).*")),
          type.getSimpleName());
    }
  }

  private static boolean any(Class<?> type, String names) {
    return Arrays.stream(type.getDeclaredMethods())
        .filter(method -> method.isAnnotationPresent(Test.class))
        .anyMatch(method -> method.getName().matches(names));
  }
}
