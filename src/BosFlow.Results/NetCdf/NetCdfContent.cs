namespace BosFlow.Results.NetCdf;

/// <summary>Everything a netCDF file holds: variables and the attributes of the file as a whole.</summary>
public sealed record NetCdfContent
{
    /// <summary>The variables in the order in which they are written; coordinates among them.</summary>
    public required IReadOnlyList<NetCdfVariable> Variables { get; init; }

    /// <summary>Attributes of the file, in order. Conventions and content_sha256 are written by themselves.</summary>
    public IReadOnlyList<NetCdfAttribute> Attributes { get; init; } = [];

    /// <summary>The variable of a name.</summary>
    /// <param name="name">Name in the file.</param>
    /// <exception cref="InputDataException">There is none of this name.</exception>
    public NetCdfVariable Variable(string name) =>
        Variables.FirstOrDefault(v => v.Name == name)
        ?? throw new InputDataException($"The file has no variable \"{name}\"; it was not written by this program, or by another version of it: run the case again in a new folder.");

    /// <summary>The values of a variable.</summary>
    /// <typeparam name="T">float, double, int or byte.</typeparam>
    /// <param name="name">Name in the file.</param>
    /// <returns>Row-major values; the array belongs to the content.</returns>
    /// <exception cref="InputDataException">There is no such variable, or its values are of another type.</exception>
    public T[] Values<T>(string name)
        where T : unmanaged =>
        Variable(name).Data as T[]
        ?? throw new InputDataException($"The variable \"{name}\" does not hold values of type {typeof(T).Name}; the file was written by another program or version: run the case again in a new folder.");

    /// <summary>The value of an attribute of the file, or null where it has none of this name.</summary>
    /// <param name="name">Name in the file.</param>
    public object? Attribute(string name) => Attributes.FirstOrDefault(a => a.Name == name)?.Value;

    /// <summary>The value of an attribute that the file must have.</summary>
    /// <typeparam name="T">string, double, int, ...</typeparam>
    /// <param name="name">Name in the file.</param>
    /// <exception cref="InputDataException">There is no such attribute, or it is of another type.</exception>
    public T Required<T>(string name) =>
        Attribute(name) is T value
            ? value
            : throw new InputDataException($"The file lacks the attribute \"{name}\" or holds it in another type; it was written by another program or version: run the case again in a new folder.");
}
