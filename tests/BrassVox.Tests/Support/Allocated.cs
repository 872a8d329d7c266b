namespace BrassVox.Tests.Support;

/// <summary>What a piece of work allocates on this thread.</summary>
internal static class Allocated
{
    /// <summary>Least bytes of three runs: a collection or a compilation that falls into one of them counts there only.</summary>
    /// <param name="work">What is run, warm already.</param>
    public static long Least(Action work) => Enumerable.Range(0, 3).Min(_ =>
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        work();
        return GC.GetAllocatedBytesForCurrentThread() - before;
    });
}
