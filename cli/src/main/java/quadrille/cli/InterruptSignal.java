package quadrille.cli;

import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import java.util.concurrent.atomic.AtomicBoolean;
import org.jspecify.annotations.Nullable;

/**
 * Ctrl-C, as the machine tells of it.
 *
 * <p>Java has no supported way to hear a signal and go on, so this asks for the unsupported one by
 * name; where a virtual machine lacks it, or has been told to leave signals alone, Ctrl-C ends the
 * process as it always does. A shutdown hook would not do: a second signal waits for it.
 */
final class InterruptSignal implements Interrupts {

  private final Runnable end;

  /**
   * @param end ends the process at once
   */
  InterruptSignal(Runnable end) {
    this.end = end;
  }

  @Override
  public Listening listen(Runnable first) {
    AtomicBoolean heard = new AtomicBoolean();
    try {
      Class<?> signal = Class.forName("sun.misc.Signal");
      Class<?> handler = Class.forName("sun.misc.SignalHandler");
      Object interrupt = signal.getConstructor(String.class).newInstance("INT");
      Method handle = signal.getMethod("handle", signal, handler);
      Object hearing =
          Proxy.newProxyInstance(
              InterruptSignal.class.getClassLoader(),
              new Class<?>[] {handler},
              (proxy, method, arguments) -> {
                if (method.getName().equals("handle")) {
                  (heard.getAndSet(true) ? end : first).run();
                }
                return null;
              });
      @Nullable Object before = handle.invoke(null, interrupt, hearing);
      return () -> restore(handle, interrupt, before);
    } catch (ReflectiveOperationException | IllegalArgumentException unsupported) {
      return () -> {};
    }
  }

  private static void restore(Method handle, Object interrupt, @Nullable Object before) {
    try {
      handle.invoke(null, interrupt, before);
    } catch (ReflectiveOperationException impossible) {
      throw new IllegalStateException(impossible);
    }
  }
}
