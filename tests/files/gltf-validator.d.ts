declare module 'gltf-validator' {
  interface Issue {
    readonly code: string;
    readonly message: string;
    readonly pointer?: string;
    /** 0 error, 1 warning, 2 information, 3 hint. */
    readonly severity: number;
  }
  interface Report {
    readonly issues: {
      readonly numErrors: number;
      readonly numWarnings: number;
      readonly truncated: boolean;
      readonly messages: readonly Issue[];
    };
  }
  export function validateBytes(data: Uint8Array): Promise<Report>;
}
