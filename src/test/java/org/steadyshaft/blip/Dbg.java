package org.steadyshaft.blip;
import java.nio.file.Path;
import org.steadyshaft.analysis.KeptCycles;
import org.steadyshaft.capture.*;
import org.steadyshaft.signal.*;
import org.steadyshaft.voltage.*;
final class Dbg { public static void main(String[] a) throws Exception {
 for (String f : a) { var k = KeptCycles.of(Recordings.open(Path.of(f), f, ReadOptions.NONE), 50).get();
 var r = RoughAngle.of(k.cycles(), new Tachometer(8));
 System.out.println(f + " cycles " + k.cycles().cycles() + " segments " + k.cycles().segments() + " rate " + k.waveform().rateHz());
 for (int i = 0; i < Math.min(6, r.known().size()); i++) System.out.println("  " + r.known().get(i));
 for (int i = 0; i < Math.min(8, k.cycles().segments()); i++) System.out.println("  seg " + k.cycles().timeSeconds(k.cycles().firstOf(i))+" .. "+k.cycles().timeSeconds(k.cycles().endOf(i)-1)+" cycles "+k.cycles().cyclesOf(i));
 } } }
