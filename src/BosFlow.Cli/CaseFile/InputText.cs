using System.Text;
using BosFlow.Results.Files;

namespace BosFlow.Cli.CaseFile;

/// <summary>Reads the text of a file that a person wrote: UTF-8, at most 1 MB.</summary>
internal static class InputText
{
    private const long LargestBytes = 1 << 20;

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Reads a file.</summary>
    /// <param name="file">Absolute path; must exist.</param>
    /// <param name="kind">What it should be, such as "case file".</param>
    /// <param name="cure">What to give instead, the end of a sentence without its point.</param>
    /// <exception cref="InputDataException">It is empty, too large, no ordinary file, no UTF-8 text, or may not be read.</exception>
    public static string Read(string file, string kind, string cure)
    {
        try
        {
            if (!OrdinaryFile.HoldsBytes(file))
                throw new InputDataException($"{file} is empty, a pipe or a device, and no {kind}; {cure}.");
            using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.Read);
            if (stream.Length > LargestBytes)
                throw new InputDataException($"{file} is no {kind}: it is larger than 1 MB; {cure}.");
            byte[] bytes = new byte[stream.Length];
            stream.ReadExactly(bytes);
            if (bytes.AsSpan().Contains((byte)0))
                throw new InputDataException($"{file} is no text; {cure}.");
            string text = Utf8.GetString(bytes);
            return text.AsSpan().Trim('\uFEFF').Trim().Length > 0 ? text : throw new InputDataException($"{file} is empty; {cure}.");
        }
        catch (DecoderFallbackException exception)
        {
            throw new InputDataException($"{file} is no UTF-8 text (byte {exception.Index + 1} fits no letter); save it as UTF-8 in the editor.", exception);
        }
        catch (UnauthorizedAccessException exception)
        {
            throw new InputDataException($"{file} may not be read by this user; change its permissions.", exception);
        }
        catch (IOException exception)
        {
            throw new InputDataException($"{file} cannot be read ({exception.Message.TrimEnd('.')}); {cure}.", exception);
        }
    }
}
