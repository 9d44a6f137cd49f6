namespace BosFlow.Benchmarks.Peers;

/// <summary>A method that measures displacement.</summary>
internal interface IPeer
{
    /// <summary>Method and its settings.</summary>
    string Name { get; }

    /// <summary>Library and its version.</summary>
    string Library { get; }

    /// <summary>Whether it uses more than one thread when it is given them.</summary>
    bool UsesThreads { get; }

    /// <summary>Measures all frames of a scene.</summary>
    /// <param name="task">Pictures and nodes.</param>
    /// <param name="threads">Number of threads it may use.</param>
    /// <returns>Seconds for all frames, and the displacement of each. Conversion of pictures before and sampling at the nodes after are not timed.</returns>
    (double Seconds, NodeResult[] Frames) Measure(NodeTask task, int threads);
}
