package quadrille.mouths;

/** How much a test tries: enough in the usual build, far more with {@code -Pthorough}. */
public final class Tries {
  private Tries() {}

  public static <T> T of(T usual, T thorough) {
    return Boolean.getBoolean("quadrille.thorough") ? thorough : usual;
  }
}
